import type { Finding } from "../../findings/finding.ts";
import { type MeasuredNumber, measureName, measureWords, percentWords } from "../../words/index.ts";

import { type Html, html } from "../html.ts";
import { isStepMeasure } from "../step-authority.ts";

/** The numbers of a finding as a small table. */
export function measureList({ measures }: Pick<Finding, "measures">): Html | undefined {
  const rows = Object.entries(measures).filter(([key]) => !isStepMeasure(key));
  if (rows.length === 0) return undefined;
  return html`<table class="measures"><caption>Measured${hasInterval(measures) && ", with 95 % intervals"}</caption>
<tbody>${rows.map(([key, value]) => html`<tr><th scope="row">${measureName(key)}</th><td>${Array.isArray(value) ? perMotor(key, value) : measureWords(key, value)}</td></tr>`)}</tbody></table>`;
}

function hasInterval(measures: Finding["measures"]): boolean {
  return Object.values(measures)
    .flat()
    .some(({ low, high }) => low !== undefined || high !== undefined);
}

function perMotor(key: string, values: readonly (MeasuredNumber & { motor: number })[]): Html {
  return html`${values.map((estimate) => {
    const words =
      estimate.unit === "1" && (key === "excess" || key.startsWith("demand-"))
        ? signed(estimate)
        : measureWords(key, estimate);
    return html`<div>motor ${estimate.motor}: ${words}</div>`;
  })}`;
}

function signed({ value, low, high }: MeasuredNumber): string {
  const words = (share: number) => `${share > 0 ? "+" : ""}${percentWords(share)}`;
  return low === undefined || high === undefined
    ? words(value)
    : `${words(value)} (between ${words(low)} and ${words(high)})`;
}
