import { findingName } from "../../charts/index.ts";
import type { Diagnosis } from "../../findings/diagnosis.ts";
import { capital, plainText } from "../../words/index.ts";

import { type Html, html } from "../html.ts";

/** How each number was computed, with its source; findings that share a method share the entry. */
export function sectionMethods({ findings }: Diagnosis): Html {
  const methods = new Map<string, { sources: readonly string[]; names: Set<string> }>();
  for (const finding of findings) {
    const entry = methods.get(finding.method) ?? { sources: finding.sources, names: new Set() };
    entry.names.add(findingName(finding));
    methods.set(finding.method, entry);
  }
  if (methods.size === 0) return html``;
  return html`<section aria-labelledby="methods"><h2 id="methods">How the numbers were computed</h2>
${[...methods].map(
  ([
    method,
    { sources, names },
  ]) => html`<div class="keep"><h3 class="minor">${capital([...names].join("; "))}</h3><p class="prose">${method}</p>
${sources.length > 0 && html`<ul class="facts">${sources.map((source) => html`<li>${linked(source)}</li>`)}</ul>`}</div>`,
)}</section>`;
}

/** Addresses in a source become links; they are followed only when somebody clicks. */
function linked(source: string): Html {
  const parts = plainText(source, 400).split(/(https:\/\/[^\s<>"']+)/);
  return html`${parts.map((part) => (part.startsWith("https://") ? html`<a href="${part}" rel="noreferrer">${part}</a>` : part))}`;
}
