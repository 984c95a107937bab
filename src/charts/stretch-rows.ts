import type { Finding } from "../findings/finding.ts";

/** A stretch of a finding as a chart marks it. */
export interface StretchRow {
  readonly time: number;
  readonly until: number;
  readonly level: string;
}

/** The stretches of findings, or their whole length where they name none. */
export function stretchRows(findings: readonly Finding[]): StretchRow[] {
  return findings.flatMap((finding) =>
    (finding.stretches ?? [finding]).map(({ start, end }) => ({
      time: Number(start.toFixed(4)),
      until: Number(end.toFixed(4)),
      level: finding.severity,
    })),
  );
}
