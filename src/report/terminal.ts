import type { AlertLevel } from "../findings/finding.ts";

/** Text with or without colour; colour is only ever added to words, never instead of them. */
export interface Ink {
  readonly level: (level: AlertLevel, text: string) => string;
  readonly strong: (text: string) => string;
  readonly faint: (text: string) => string;
}

const LEVEL_CODES: Readonly<Record<AlertLevel, string>> = { warning: "1;31", caution: "33", advisory: "36", note: "2" };

/** @param colour true only where the reader is a terminal that shows colour */
export function ink(colour: boolean): Ink {
  const paint = (code: string) => (text: string) => (colour ? `\u001b[${code}m${text}\u001b[0m` : text);
  return { level: (level, text) => paint(LEVEL_CODES[level])(text), strong: paint("1"), faint: paint("2") };
}

/** Breaks a sentence at spaces into lines of at most `width` characters; a longer word is cut where it must be. */
export function wrap(text: string, width: number): string[] {
  const lines: string[] = [];
  let line: string[] = [];
  for (const word of text.split(" ")) {
    let letters = [...word];
    while (letters.length > width) {
      if (line.length > 0) lines.push(line.join(""));
      lines.push(letters.slice(0, width).join(""));
      letters = letters.slice(width);
      line = [];
    }
    if (line.length > 0 && line.length + 1 + letters.length > width) {
      lines.push(line.join(""));
      line = letters;
    } else line = line.length === 0 ? letters : [...line, " ", ...letters];
  }
  if (line.length > 0) lines.push(line.join(""));
  return lines;
}
