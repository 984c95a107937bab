import { createHash } from "node:crypto";
import { type Html, html, trusted } from "../html.ts";
import { type RuntimeAssets, runtimeAssets } from "../runtime-assets.ts";
import { PAGE_STYLE } from "./page-style.ts";

export interface DocumentParts {
  readonly title: string;
  /** where a reader of the keyboard may jump to */
  readonly skip: { readonly href: string; readonly text: string };
  readonly body: Html;
  /** what the script draws from; see `packCharts` */
  readonly data: object;
  readonly script: string;
  /** default: read from the installed packages */
  readonly assets?: RuntimeAssets | undefined;
}

/**
 * A page as one HTML file that asks nobody for anything: style, chart runtime and data stand in it, and its content
 * security policy allows those and nothing else, each by its checksum.
 */
export function htmlDocument({ title, skip, body, data, script, assets }: DocumentParts): string {
  const { vega, vegaLite, interpreter } = assets ?? runtimeAssets();
  const scripts = [vega, vegaLite, interpreter, script];
  const page = html`<!doctype html>
<html lang="en"><head><meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy(scripts, PAGE_STYLE)}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<title>${title}</title>
<style>${trusted(PAGE_STYLE)}</style></head>
<body><a class="skip" href="${skip.href}">${skip.text}</a>
${body}
<script type="application/json" id="charts">${embedded(data)}</script>
${scripts.map((text) => html`<script>${trusted(text)}</script>`)}
</body></html>
`;
  return page.text;
}

/** Signs that could begin markup, or end a line of a script, and how JSON writes them else. */
const SIGNS = [
  ["<", "\\u003c"],
  ["\u2028", "\\u2028"],
  ["\u2029", "\\u2029"],
] as const;

/** Data as JSON in which no markup can begin. */
function embedded(data: object): Html {
  const json = JSON.stringify(data);
  return trusted(SIGNS.reduce((text: string, [sign, escaped]) => text.replaceAll(sign, escaped), json));
}

function policy(scripts: readonly string[], style: string): string {
  const hash = (text: string) => `'sha256-${createHash("sha256").update(text, "utf8").digest("base64")}'`;
  return [
    "default-src 'none'",
    `script-src ${scripts.map(hash).join(" ")}`,
    `style-src ${hash(style)}`,
    "base-uri 'none'",
    "form-action 'none'",
  ].join("; ");
}
