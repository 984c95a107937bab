import type { Finding } from "../findings/finding.ts";
import type { Span } from "../log/channel.ts";
import { rounded } from "./significant.ts";

/** A stretch of a finding as a chart marks it. */
export interface StretchRow {
  readonly time: number;
  readonly until: number;
  readonly level: string;
}

/**
 * The stretches of findings, or their whole length where they name none. A finding about nearly the whole flight marks
 * nothing: a chart that is shaded from end to end points nowhere.
 */
export function stretchRows(findings: readonly Finding[], whole: Span): StretchRow[] {
  return findings.flatMap((finding) =>
    marked(finding, whole).map(({ start, end }) => ({
      time: rounded(start, 4),
      until: rounded(end, 4),
      level: finding.severity,
    })),
  );
}

function marked(finding: Finding, whole: Span): readonly Span[] {
  if (finding.stretches !== undefined) return finding.stretches;
  return finding.end - finding.start > 0.8 * (whole.end - whole.start) ? [] : [finding];
}
