import { plainText } from "../charts/index.ts";

/** Text that no Markdown engine takes for markup: one line, every sign with a meaning written as a character reference. */
export function escapeMarkdown(text: string, limit = 300): string {
  return plainText(text, limit)
    .replace(/[\\`*_{}[\]()#+!|<>&~"'@:=$^]/g, (sign) => `&#${sign.charCodeAt(0)};`)
    .replace(/^(\d+)\./, "$1&#46;")
    .replace(/^-/, "&#45;");
}
