import { plainText } from "../words/index.ts";

/**
 * Text that no Markdown engine takes for markup: one line, every sign with a meaning written as a character reference,
 * and nothing that reads as an address or as the beginning of a list.
 */
export function escapeMarkdown(text: string, limit = 300): string {
  return plainText(text, limit)
    .replace(/[\\`*_{}[\]#+!|<>&~@=$^]/g, reference)
    .replace(/:(?=\/\/)|(?<=^|\W)(?:www)\.|^-/gi, (match) => match.slice(0, -1) + reference(match.slice(-1)))
    .replace(/^(\d+)([.)])(?=\s)/, (_, number: string, sign: string) => number + reference(sign));
}

function reference(sign: string): string {
  return `&#${sign.charCodeAt(0)};`;
}
