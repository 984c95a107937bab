import { InputError } from "../input/index.ts";
import type { Channel, Series, Span, TextSeries } from "./channel.ts";
import type { ChannelMap } from "./channels/channel-map.ts";
import type { ResolvedChannel, ResolvedMap } from "./channels/resolve-map.ts";
import { conversionOf } from "./channels/units.ts";
import { type SeriesBuilder, seriesBuilder } from "./clock/build-series.ts";
import { frozenFrom } from "./clock/frozen-from.ts";
import { type RowClock, rowClock } from "./clock/row-clock.ts";
import { type Sampling, samplingOf } from "./clock/sampling.ts";
import { stuckSpans } from "./clock/stuck-spans.ts";
import { cutSeries, cutSpans } from "./cut-stretch.ts";
import type { ColumnMatch, Log, TimeMatch } from "./log.ts";
import type { OpenedLog } from "./open-log.ts";
import type { Table } from "./table/describe-table.ts";
import type { Columns } from "./table/read-columns.ts";
import { shorten } from "./table/table-error.ts";

export interface BuildOptions {
  /** s, the stretch asked for; may be infinite either way */
  readonly stretch?: { readonly from: number; readonly to: number };
  /** a column that the map names and that holds no value is an error, not an entry of `empty` */
  readonly refusesEmpty: boolean;
}

/**
 * Turns columns into channels on one clock and looks at their quality. Quality is judged on the whole log, then all is
 * cut to the stretch asked for.
 *
 * @throws InputError where the stamps are too few, the stretch lies outside the log, or a column of the map is empty
 */
export function buildLog(opened: OpenedLog, { stretch = EVERYTHING, refusesEmpty }: BuildOptions): Log {
  const { table, columns, resolved, map, sha256 } = opened;
  const { file } = table;
  const clock = clockOf(table, columns, resolved);
  const span = checkedStretch(file, stretch, clock.duration);
  const builder = seriesBuilder(clock.time, clock.rows);
  const { built, empty, repeated } = buildAll(builder, columns, resolved.channels);
  if (refusesEmpty && map !== null && empty.length > 0) throw emptyColumn(map, file, empty[0]!);
  const frozen = frozenFrom(
    built.filter(isBodyMotion).map(({ series, from }) => ({ series, isRate: from.kind.dimension === "angular-rate" })),
  );
  const whole = { span, frozen, samplings: new Map([[clock.time, clock.sampling]]), clock };
  return {
    file,
    sha256,
    rows: columns.rows,
    isCut: columns.isCut,
    duration: clock.duration,
    stretch: span,
    start: startOf(table, columns, resolved, clock),
    channels: new Map(built.map((one) => [one.from.kind.name, finishChannel(one, built, whole)])),
    mode: cutText(modeOf(builder, columns, resolved.channels), span),
    mapping: {
      source: map === null ? "words" : "file",
      file: map?.file ?? null,
      sha256: map?.sha256 ?? null,
      time: timeMatch(resolved),
      matches: resolved.channels.map(matchOf),
      questions: resolved.questions,
    },
    clock: {
      rate: clock.sampling.rate,
      repeated,
      backwards: clock.backwards,
      firstBackwards: clock.firstBackwards,
      missing: clock.missing,
      jitter: clock.sampling.jitter,
      gaps: clock.sampling.gaps,
    },
    frozenFrom: frozen,
    empty: empty.map(({ kind, source }) => ({ channel: kind.name, column: source.column })),
  };
}

const EVERYTHING = { from: Number.NEGATIVE_INFINITY, to: Number.POSITIVE_INFINITY };

interface Built {
  readonly from: ResolvedChannel;
  readonly unit: string;
  readonly series: Series;
}

interface Whole {
  readonly span: Span;
  readonly frozen: number | null;
  /** by time array, because channels share them */
  readonly samplings: Map<Float64Array, Sampling>;
  readonly clock: RowClock;
}

/** The aircraft's own motion without its rotors. */
const isBodyMotion = ({ from: { kind } }: Built) => kind.isMotion && kind.motor === null;

function clockOf({ file, columns: names }: Table, columns: Columns, { time }: ResolvedMap): RowClock {
  if ("rate" in time) {
    const stamps = Float64Array.from({ length: columns.rows }, (_, row) => row);
    return rowClock(stamps, 1 / time.rate, file, "rows");
  }
  return rowClock(columns.numbers.get(time.position)!, time.secondsPerUnit, file, shorten(names[time.position]!.name));
}

function buildAll(builder: SeriesBuilder, columns: Columns, channels: readonly ResolvedChannel[]) {
  const built: Built[] = [];
  const empty: ResolvedChannel[] = [];
  let repeated = 0;
  for (const from of channels) {
    const cells = columns.numbers.get(from.position);
    if (cells === undefined) continue;
    const { sign, scale, offset, unit } = from.source;
    const conversion = conversionOf(unit, from.kind.dimension)!;
    const factor = conversion.factor * sign * scale;
    const made = builder.build(cells, { factor, offset: conversion.factor * sign * offset + conversion.offset });
    repeated = Math.max(repeated, made.repeated);
    if (made.series.time.length === 0) empty.push(from);
    else built.push({ from, unit: conversion.unit, series: made.series });
  }
  return { built, empty, repeated };
}

function finishChannel({ from, unit, series }: Built, all: readonly Built[], whole: Whole): Channel {
  const { span, frozen, samplings, clock } = whole;
  let sampling = samplings.get(series.time);
  if (sampling === undefined) {
    sampling = samplingOf(series.time, clock.sampling.gaps);
    samplings.set(series.time, sampling);
  }
  const others = all.filter((other) => other.series !== series && isBodyMotion(other));
  const stuck = from.kind.isMotion
    ? stuckSpans(
        series,
        sampling.gaps,
        others.map((other) => other.series),
      )
    : [];
  const cut = cutSeries(series, span);
  const seen = cut === series ? sampling : samplingOf(cut.time, clock.sampling.gaps);
  return {
    name: from.kind.name,
    column: from.source.column,
    unit,
    series: cut,
    rate: sampling.rate,
    coverage: Math.min(1, seen.covered / Math.max(span.end - span.start, Number.MIN_VALUE)),
    longestGap: seen.longestGap,
    gaps: cutSpans(sampling.gaps, span),
    stuck: cutSpans(
      stuck.filter(({ end }) => frozen === null || end <= frozen),
      span,
    ),
  };
}

function modeOf(builder: SeriesBuilder, columns: Columns, channels: readonly ResolvedChannel[]): TextSeries | null {
  const mode = channels.find(({ kind }) => kind.dimension === "text");
  const cells = mode === undefined ? undefined : columns.texts.get(mode.position);
  return cells === undefined ? null : builder.buildText(cells);
}

function cutText(text: TextSeries | null, { start, end }: Span): TextSeries | null {
  if (text === null) return null;
  const within = [...text.values.keys()].filter((at) => text.time[at]! >= start && text.time[at]! <= end);
  return {
    time: Float64Array.from(within, (at) => text.time[at]!),
    values: within.map((at) => text.values[at]!),
  };
}

/** Stamps with a date, or numbers that can only count from 1970: between 2000 and 2100. */
function startOf({ columns: names }: Table, columns: Columns, { time }: ResolvedMap, clock: RowClock): string | null {
  if ("rate" in time) return null;
  const seconds = columns.numbers.get(time.position)![clock.rows[0]!]! * time.secondsPerUnit;
  const isDate = names[time.position]!.kind === "timestamp" || (seconds > 946_684_800 && seconds < 4_102_444_800);
  return isDate ? new Date(seconds * 1000).toISOString() : null;
}

function timeMatch({ time }: ResolvedMap): TimeMatch {
  return "rate" in time
    ? { column: null, unit: "Hz", rate: time.rate }
    : { column: time.column, unit: time.unit, rate: null };
}

function matchOf({ kind, source, confidence, why }: ResolvedChannel): ColumnMatch {
  return { channel: kind.name, ...source, confidence, why };
}

function checkedStretch(file: string, { from, to }: { from: number; to: number }, duration: number): Span {
  const span = { start: Math.max(from, 0), end: Math.min(to, duration) };
  if (from >= to) throw new InputError({ file }, `the stretch from ${from} to ${to} s is empty`, "let it end later");
  if (Number.isNaN(from) || Number.isNaN(to) || span.end <= span.start) {
    const problem = `the stretch asked for lies outside the log, which runs from 0 to ${duration.toFixed(3)} s`;
    throw new InputError({ file }, problem, "ask for seconds counted from the first row");
  }
  return span;
}

function emptyColumn(map: ChannelMap, file: string, { kind, source }: ResolvedChannel): InputError {
  return new InputError(
    map.placeOf("channels", kind.name),
    `column "${shorten(source.column)}" of ${file} holds no number at all`,
    "take the channel out of the map, or name another column",
  );
}
