import type { Finding } from "../findings/finding.ts";
import type { Span } from "../log/channel.ts";

const SHORTEST = 8;
const LONGEST_WHOLE = 60;
const MARGIN = 0.25;

/**
 * The stretch of time that shows a finding best: the finding with a quarter of its length on either side, at least
 * eight seconds in all. A finding that runs over more than a minute in separate stretches is shown at its longest one.
 * @param whole s, what the log holds; the window stays inside
 */
export function findingWindow(finding: Pick<Finding, "start" | "end" | "stretches">, whole: Span): Span {
  const core = coreOf(finding);
  const length = Math.max(SHORTEST, (core.end - core.start) * (1 + 2 * MARGIN));
  const middle = (core.start + core.end) / 2;
  const start = Math.max(whole.start, Math.min(middle - length / 2, whole.end - length));
  return { start, end: Math.min(whole.end, start + length) };
}

function coreOf(finding: Pick<Finding, "start" | "end" | "stretches">): Span {
  const { start, end, stretches = [] } = finding;
  if (end - start <= LONGEST_WHOLE || stretches.length === 0) return { start, end };
  return stretches.reduce((best, stretch) => (stretch.end - stretch.start > best.end - best.start ? stretch : best));
}

/** Windows sorted, with those that overlap made one. */
export function mergeSpans(spans: readonly Span[]): Span[] {
  const merged: { start: number; end: number }[] = [];
  for (const { start, end } of [...spans].sort((a, b) => a.start - b.start)) {
    const last = merged[merged.length - 1];
    if (last !== undefined && start <= last.end) last.end = Math.max(last.end, end);
    else merged.push({ start, end });
  }
  return merged;
}
