/** An interval of time on the log's own clock, s; `end` is not before `start`. */
export interface Span {
  readonly start: number;
  readonly end: number;
}

/** A quantity as logged: irregular, times strictly increasing, all values finite. Both arrays are n long. */
export interface Series {
  /** s from the log's first row. Channels without missing cells share one array: `a.time === b.time` means aligned. */
  readonly time: Float64Array;
  /** in the channel's SI unit */
  readonly values: Float64Array;
}

/** A quantity of words, such as the flight mode; both arrays are n long. */
export interface TextSeries {
  readonly time: Float64Array;
  readonly values: readonly string[];
}

/** One sampled quantity of the log under its contract name, in SI units, with what is known about its sampling. */
export interface Channel {
  /** dotted contract name, `rate.roll.measured` */
  readonly name: string;
  /** the log's own column name, exactly as written */
  readonly column: string;
  /** SI unit after conversion (motor commands keep the unit of the aircraft file) */
  readonly unit: string;
  readonly series: Series;
  /** median sample rate, Hz */
  readonly rate: number;
  /** share, 0..1, of the log's duration that lies within this channel's stretches */
  readonly coverage: number;
  /** s, longest time between two samples that follow one another */
  readonly longestGap: number;
  /** pauses between samples too long to interpolate over; no later number may be computed across one */
  readonly gaps: readonly Span[];
  /** spans in which the value did not change for longer than its own activity explains */
  readonly stuck: readonly Span[];
}
