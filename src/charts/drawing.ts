import type { Finding } from "../findings/finding.ts";
import type { Flight } from "../flight/flight.ts";
import type { Channel, Span } from "../log/channel.ts";
import { displayUnit } from "../words/index.ts";

import { envelope, type Trace } from "./envelope.ts";
import { findingWindow, mergeSpans } from "./finding-window.ts";
import { rounded, significant } from "./significant.ts";

/** One point of a line as it stands in a spec: s, and a value in the unit that people read. */
export interface LineRow {
  readonly time: number;
  readonly value: number | null;
}

/** What every chart of one flight draws from: each channel is reduced once, and all charts share the result. */
export interface Drawing {
  readonly flight: Flight;
  readonly findings: readonly Finding[];
  /** s, what was examined: what a chart shows before anybody looks closer */
  readonly whole: Span;
  /** s, the same and whatever else a finding speaks of, such as a frozen end that was left out */
  readonly extent: Span;
  /** the channel in the unit that people read: the whole flight as an envelope, the findings' windows in detail */
  line(channel: Channel): readonly LineRow[];
}

const OVERVIEW_COLUMNS = 900;
const FINEST_WINDOW = 700;
const COARSEST_WINDOW = 120;
/** Points that one page may carry over all channels and windows; about nine bytes each once packed. */
const POINT_BUDGET = 220_000;

/** Prepares the shared data of a flight's charts. */
export function prepareDrawing(flight: Flight, findings: readonly Finding[]): Drawing {
  const whole = flight.span;
  const length = whole.end - whole.start;
  // A window as long as the flight would swallow the others and leave all of them with the overview's detail.
  const windows = mergeSpans(
    findings.map((finding) => findingWindow(finding, whole)).filter(({ start, end }) => end - start < 0.5 * length),
  );
  const share = POINT_BUDGET / (2 * Math.max(1, flight.log.channels.size) * Math.max(1, windows.length));
  const columns = Math.round(Math.min(FINEST_WINDOW, Math.max(COARSEST_WINDOW, share)));
  const lines = new Map<string, readonly LineRow[]>();
  return {
    flight,
    findings,
    whole,
    extent: extentOf(whole, findings),
    line(channel) {
      const known = lines.get(channel.name);
      if (known !== undefined) return known;
      const rows = reduce(channel, whole, windows, columns);
      lines.set(channel.name, rows);
      return rows;
    },
  };
}

/** The span, widened to hold every finding. */
export function extentOf(span: Span, findings: readonly Span[]): Span {
  return {
    start: Math.min(span.start, ...findings.map(({ start }) => start)),
    end: Math.max(span.end, ...findings.map(({ end }) => end)),
  };
}

function reduce(channel: Channel, whole: Span, windows: readonly Span[], windowColumns: number): LineRow[] {
  const { factor } = displayUnit(channel.unit);
  const length = whole.end - whole.start;
  const traces: Trace[] = [];
  let from = whole.start;
  const between = (to: number) => {
    const columns = Math.max(2, Math.round((OVERVIEW_COLUMNS * (to - from)) / length));
    if (to > from) traces.push(envelope(channel.series, { start: from, end: to }, columns));
  };
  for (const window of windows) {
    between(window.start);
    traces.push(envelope(channel.series, window, windowColumns));
    from = window.end;
  }
  between(whole.end);
  return broken(joined(traces, factor), channel.gaps);
}

/** Pieces end to end; a sample that closes one and opens the next stands once. */
function joined(traces: readonly Trace[], factor: number): LineRow[] {
  const rows: LineRow[] = [];
  let latest = Number.NEGATIVE_INFINITY;
  for (const { time, value } of traces) {
    time.forEach((now, index) => {
      if (now <= latest) return;
      rows.push({ time: rounded(now, 4), value: significant(value[index]! * factor) });
      latest = now;
    });
  }
  return rows;
}

/** A row without a value in the middle of every gap, so that no line is drawn across missing data. */
function broken(rows: readonly LineRow[], gaps: readonly Span[]): LineRow[] {
  const result: LineRow[] = [];
  let gap = 0;
  for (const row of rows) {
    while (gap < gaps.length && (gaps[gap]!.start + gaps[gap]!.end) / 2 < row.time) {
      const middle = rounded((gaps[gap]!.start + gaps[gap]!.end) / 2, 4);
      const previous = result[result.length - 1];
      if (previous !== undefined && middle > previous.time) result.push({ time: middle, value: null });
      gap += 1;
    }
    result.push(row);
  }
  return result;
}
