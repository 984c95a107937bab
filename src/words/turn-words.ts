const TURNS: Readonly<Record<string, string>> = {
  "roll positive": "roll right",
  "roll negative": "roll left",
  "pitch positive": "pitch up",
  "pitch negative": "pitch down",
  "yaw positive": "yaw right",
  "yaw negative": "yaw left",
};

/** `roll right` for a turn about an axis in its positive direction; null for what is no such turn. */
export function turnWords(axis: string, direction: string): string | null {
  return TURNS[`${axis} ${direction}`] ?? null;
}
