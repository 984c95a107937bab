/**
 * Text from a log or an aircraft file, made fit to stand in a sentence: control characters, line breaks and marks
 * that turn the direction of writing become spaces, and what is longer than `limit` is cut with a word on how much.
 */
export function plainText(text: string, limit = 120): string {
  const clean = text.replace(STEERING, " ").replace(/\s+/g, " ").trim();
  const letters = [...clean];
  return letters.length <= limit ? clean : `${letters.slice(0, limit).join("")}… (${letters.length - limit} more)`;
}

// C0, DEL, C1, line and paragraph separators, zero-width and direction marks, unpaired surrogates' usual hosts.
const STEERING =
  // biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what is being removed
  /[\u0000-\u001f\u007f-\u009f\u061c\u200b-\u200f\u2028-\u202e\u2060-\u206f\ufeff\ufff9-\ufffb]/g;
