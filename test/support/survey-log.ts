import type { Channel, Log, Span } from "../../src/log/index.ts";

/** Times and values of one channel, as a test gives them. */
export interface Sampled {
  readonly unit?: string;
  readonly rate?: number;
  readonly of: (time: number) => number;
}

export interface SurveyOptions {
  /** s */
  readonly duration?: number;
  /** Hz */
  readonly rate?: number;
  /** rows within are missing */
  readonly gaps?: readonly Span[];
  readonly stretch?: Span;
  readonly frozenFrom?: number | null;
}

/** A log made of functions of time: what reading would have made of a perfect table with these columns. */
export function surveyLog(channels: Readonly<Record<string, Sampled>>, options: SurveyOptions = {}): Log {
  const { duration = 60, rate = 50, gaps = [], stretch, frozenFrom = null } = options;
  const times = new Map<number, Float64Array>();
  const built = Object.entries(channels).map(([name, { unit = "1", rate: own = rate, of }]): [string, Channel] => {
    const time = times.get(own) ?? stampsOf(duration, own, gaps);
    times.set(own, time);
    return [
      name,
      {
        name,
        column: name,
        unit,
        series: { time, values: time.map(of) },
        rate: own,
        coverage: 1,
        longestGap: 1 / own,
        gaps,
        stuck: [],
      },
    ];
  });
  return {
    file: "survey.csv",
    sha256: "00".repeat(32),
    rows: Math.round(duration * rate) + 1,
    isCut: false,
    duration,
    stretch: stretch ?? { start: 0, end: duration },
    start: null,
    channels: new Map(built),
    mode: null,
    mapping: {
      source: "file",
      file: null,
      sha256: null,
      time: { column: "time_s", unit: "s", rate: null },
      matches: [],
      questions: [],
    },
    clock: { rate, repeated: 0, backwards: 0, firstBackwards: null, missing: 0, jitter: 0, gaps },
    frozenFrom,
    empty: [],
  };
}

function stampsOf(duration: number, rate: number, gaps: readonly Span[]): Float64Array {
  return Float64Array.from({ length: Math.round(duration * rate) + 1 }, (_, i) => i / rate).filter(
    (time) => !gaps.some(({ start, end }) => time > start && time < end),
  );
}
