import { type Flight, rangeOf } from "../flight/index.ts";
import type { Channel, Span } from "../log/channel.ts";
import { endOfData } from "./end-of-data.ts";
import type { Detector, EvidenceBase } from "./evidence.ts";

export type DataQualityProblem =
  | "frozen-end"
  | "ends-in-air"
  | "stretch-ends-in-air"
  | "end-untold"
  | "cut-row"
  | "row-gaps"
  | "channel-gaps"
  | "stuck"
  | "stamps"
  | "empty-column"
  | "still-set-point"
  | "slow-channel";

/** Something in the log itself that limits what can be said from it. */
export interface DataQualityEvidence extends EvidenceBase {
  readonly kind: "data-quality";
  readonly problem: DataQualityProblem;
  /** channel it concerns; `all` where it is the rows themselves */
  readonly channel: string;
  /** log column, where one channel is concerned */
  readonly column?: string;
  /** whether any of it lies in the air, where it costs the diagnosis something */
  readonly inAir: boolean;
}

/** Hz; below this the rate loop of a multirotor cannot be judged: its motions reach 10 Hz and more (common practice) */
const LEAST_LOOP_RATE = 25;

/** Turns what reading the log found out about its clock and channels into evidence. Needs nothing; always runs. */
export const dataQuality: Detector<DataQualityEvidence> = {
  kind: "data-quality",
  missing: () => [],
  detect(flight) {
    return [
      ...frozenEnd(flight),
      ...endOfData(flight),
      ...rowGaps(flight),
      ...stamps(flight),
      ...perChannel(flight),
      ...emptyColumns(flight),
      ...flight.still.map((channel) => stillSetPoint(flight, channel)),
    ];
  },
};

const base = (flight: Flight, start: number, end: number) => ({
  kind: "data-quality" as const,
  start,
  end,
  confidence: 0.99,
  inAir: flight.airborne.some((span) => span.start < end && span.end > start),
});

function frozenEnd(flight: Flight): DataQualityEvidence[] {
  const { frozenFrom, duration } = flight.log;
  if (frozenFrom === null) return [];
  return [
    {
      ...base(flight, frozenFrom, duration),
      problem: "frozen-end",
      channel: "all",
      // The freeze begins where air time was cut off, so whether it began in the air is told by that edge.
      inAir: flight.airborne.some(({ end }) => end >= frozenFrom - 0.5),
      measures: { stuck: { value: duration - frozenFrom, unit: "s" } },
    },
  ];
}

function rowGaps(flight: Flight): DataQualityEvidence[] {
  const { gaps, rate } = flight.log.clock;
  const within = gaps.filter(({ start, end }) => start < flight.span.end && end > flight.span.start);
  return within.length === 0 ? [] : [{ ...gapEvidence(flight, within, rate), problem: "row-gaps", channel: "all" }];
}

function gapEvidence(flight: Flight, gaps: readonly Span[], rate: number) {
  const common = base(flight, gaps[0]!.start, gaps.at(-1)!.end);
  return {
    ...common,
    inAir: gaps.some((gap) => flight.airborne.some((span) => span.start < gap.end && span.end > gap.start)),
    stretches: gaps,
    measures: {
      gaps: { value: gaps.length, unit: "1" },
      longest: { value: Math.max(...gaps.map(({ start, end }) => end - start)), unit: "s" },
      rate: { value: rate, unit: "Hz" },
    },
  };
}

function stamps(flight: Flight): DataQualityEvidence[] {
  const { repeated, backwards, firstBackwards, rate } = flight.log.clock;
  if (repeated + backwards === 0) return [];
  return [
    {
      ...base(flight, firstBackwards ?? flight.span.start, flight.span.end),
      problem: "stamps",
      channel: "all",
      measures: {
        repeated: { value: repeated, unit: "1" },
        backwards: { value: backwards, unit: "1" },
        rate: { value: rate, unit: "Hz" },
      },
    },
  ];
}

function perChannel(flight: Flight): DataQualityEvidence[] {
  return [...flight.log.channels.values()].flatMap((channel) => [
    ...ownGaps(flight, channel),
    ...stuck(flight, channel),
    ...tooSlow(flight, channel),
  ]);
}

/** Gaps of the channel alone: those that all rows share are told once. */
function ownGaps(flight: Flight, channel: Channel): DataQualityEvidence[] {
  const own = channel.gaps.filter(
    (gap) => !flight.log.clock.gaps.some((shared) => shared.start <= gap.end && shared.end >= gap.start),
  );
  if (own.length === 0) return [];
  const { name, column, rate } = channel;
  return [{ ...gapEvidence(flight, own, rate), problem: "channel-gaps", channel: name, column }];
}

function stuck(flight: Flight, { name, column, stuck: spans }: Channel): DataQualityEvidence[] {
  if (spans.length === 0) return [];
  return [
    {
      ...base(flight, spans[0]!.start, spans.at(-1)!.end),
      problem: "stuck",
      channel: name,
      column,
      stretches: spans,
      measures: { stuck: { value: spans.reduce((sum, { start, end }) => sum + end - start, 0), unit: "s" } },
    },
  ];
}

function tooSlow(flight: Flight, { name, column, rate }: Channel): DataQualityEvidence[] {
  if (!/^rate\..*\.measured$/.test(name) || rate >= LEAST_LOOP_RATE) return [];
  return [
    {
      ...base(flight, flight.span.start, flight.span.end),
      problem: "slow-channel",
      channel: name,
      column,
      measures: { rate: { value: rate, unit: "Hz" } },
    },
  ];
}

function emptyColumns(flight: Flight): DataQualityEvidence[] {
  return flight.log.empty.map(({ channel, column }) => ({
    ...base(flight, flight.span.start, flight.span.end),
    problem: "empty-column",
    channel,
    column,
    measures: {},
  }));
}

function stillSetPoint(flight: Flight, channel: Channel): DataQualityEvidence {
  const { name, column, unit } = channel;
  return {
    ...base(flight, flight.span.start, flight.span.end),
    problem: "still-set-point",
    channel: name,
    column,
    measures: { "set-point-range": { value: rangeOf(channel), unit } },
  };
}
