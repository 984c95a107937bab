import type { Channel, Span, TextSeries } from "./channel.ts";

/** A log that has been read, mapped, converted and checked; the ground that everything else stands on. */
export interface Log {
  readonly file: string;
  /** SHA-256 of the file's bytes, lower-case hex */
  readonly sha256: string;
  readonly rows: number;
  /** s, first to last row */
  readonly duration: number;
  /** ISO 8601 time of the first row where the log's clock tells it */
  readonly start: string | null;
  readonly channels: ReadonlyMap<string, Channel>;
  /** flight mode as logged, where mapped */
  readonly mode: TextSeries | null;
  readonly mapping: Mapping;
  readonly clock: ClockReport;
  /** from here on nothing changes any more although rows go on (power or link lost, logger hung); null if never */
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
  readonly matches: readonly ColumnMatch[];
  /** what a person should confirm before trusting numbers that depend on it */
  readonly questions: readonly Question[];
}

export interface ColumnMatch {
  readonly channel: string;
  readonly column: string;
  /** unit the column was taken to be in */
  readonly unit: string;
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
  /** rows whose stamp equals the one before (dropped) */
  readonly repeated: number;
  /** rows whose stamp runs backwards (dropped), and where the first of them is */
  readonly backwards: number;
  readonly firstBackwards: number | null;
  /** s, standard deviation of the spacing of rows, gaps left out */
  readonly jitter: number;
  /** pauses in the rows themselves */
  readonly gaps: readonly Span[];
}
