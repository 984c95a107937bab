import type { Channel, Span, TextSeries } from "./channel.ts";

/** A log that has been read, mapped, converted and checked; the ground that everything else stands on. */
export interface Log {
  readonly file: string;
  /** SHA-256 of the file's bytes, lower-case hex */
  readonly sha256: string;
  readonly rows: number;
  /** the file was cut off in the middle of its last row, which is left out */
  readonly isCut: boolean;
  /** s, first to last row */
  readonly duration: number;
  /** the stretch that was asked for, on the log's own clock; all of it by default. Channels hold nothing else */
  readonly stretch: Span;
  /** ISO 8601 time of the first row where the log's clock tells it */
  readonly start: string | null;
  readonly channels: ReadonlyMap<string, Channel>;
  /** flight mode as logged, where mapped */
  readonly mode: TextSeries | null;
  readonly mapping: Mapping;
  readonly clock: ClockReport;
  /**
   * from here on the aircraft's measured motion changes no more although rows go on to the end (power or link lost,
   * logger hung); null if never. What another system writes into the same rows may still change
   */
  readonly frozenFrom: number | null;
  /** mapped columns that hold no usable value, by channel */
  readonly empty: readonly { readonly channel: string; readonly column: string }[];
}

/** How columns became channels. */
export interface Mapping {
  /** `file`: a channel map was given; `words`: matched by the words in the column names */
  readonly source: "file" | "words";
  readonly file: string | null;
  readonly sha256: string | null;
  readonly time: TimeMatch;
  readonly matches: readonly ColumnMatch[];
  /** what a person should confirm before trusting numbers that depend on it */
  readonly questions: readonly Question[];
}

/** Where the clock comes from. */
export interface TimeMatch {
  /** null where rows are taken to come at a steady rate */
  readonly column: string | null;
  /** unit of the stamps, "date and time" where they are such; Hz for a steady rate */
  readonly unit: string;
  /** Hz, for a steady rate only */
  readonly rate: number | null;
}

export interface ColumnMatch {
  readonly channel: string;
  readonly column: string;
  /** unit the column was taken to be in */
  readonly unit: string;
  readonly sign: 1 | -1;
  /** value = sign * (cell * scale + offset), in `unit` */
  readonly scale: number;
  readonly offset: number;
  /** 0..1, how sure the match of name and unit is; 1 where a map said so */
  readonly confidence: number;
  /** the words or the rule that decided */
  readonly why: string;
}

export interface Question {
  readonly channel: string;
  readonly column: string;
  /** one sentence that ends in a question mark */
  readonly text: string;
}

/** What was found in the time column, and what was done about it. */
export interface ClockReport {
  /** median rate of the rows, Hz */
  readonly rate: number;
  /** rows whose stamp equals the one before, and which give some channel a second value there (dropped) */
  readonly repeated: number;
  /** rows whose stamp runs backwards (dropped), and where the first of them is */
  readonly backwards: number;
  readonly firstBackwards: number | null;
  /** rows without a stamp (dropped) */
  readonly missing: number;
  /** s, standard deviation of the spacing of rows, gaps left out */
  readonly jitter: number;
  /** pauses in the rows themselves */
  readonly gaps: readonly Span[];
}
