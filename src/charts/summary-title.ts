import { plainText } from "../words/index.ts";

/** characters of a title */
const LONGEST = 200;

/** The summary of a finding as the title of a chart: as many of its sentences, else of its clauses, as fit, never a piece of one. */
export function summaryTitle(summary: string): string {
  const whole = plainText(summary, 10 * LONGEST);
  if ([...whole].length <= LONGEST) return whole;
  const last = (mark: RegExp) => [...whole.slice(0, LONGEST).matchAll(mark)].at(-1);
  const end = last(/[.;](?= )/g) ?? last(/[:,](?= )/g);
  return end === undefined ? plainText(summary, LONGEST) : `${whole.slice(0, end.index)}.`;
}
