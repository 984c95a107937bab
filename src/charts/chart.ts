import type { TopLevelSpec } from "vega-lite";

/** One picture as data: a Vega-Lite spec with its data inside, ready to render anywhere. */
export interface Chart {
  /** file name without ending and key in findings: `motor-saturation-3-1`, lower-case words and numbers */
  readonly id: string;
  /** what the chart says, with its number in it */
  readonly title: string;
  /** text alternative for a reader who cannot see it */
  readonly description: string;
  readonly spec: TopLevelSpec;
}
