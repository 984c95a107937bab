/** A vertical axis whose lanes carry names; lane 0 is the lowest, each is one unit high. */
export function laneAxis(field: string, names: readonly string[], title: string | null): object {
  return {
    field,
    type: "quantitative",
    scale: { domain: [-0.08, names.length - 0.12], nice: false, zero: false },
    axis: {
      title,
      values: names.map((_, foot) => foot + 0.4),
      // Names are picked from a list by place; quoted, and of letters and digits only, they cannot be read as code.
      labelExpr: `${JSON.stringify(names.map(plainLetters))}[floor(datum.value)]`,
      grid: false,
      domain: false,
      ticks: false,
      labelLimit: 180,
    },
  };
}

/** Share of a lane's height that is drawn in; the rest keeps lanes apart. */
export const LANE_FILL = 0.78;

function plainLetters(text: string): string {
  return text.replace(/[^\p{L}\p{N} .,()+-]/gu, "").slice(0, 40);
}
