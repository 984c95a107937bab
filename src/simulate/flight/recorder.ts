/** Channels as they were at each row, before the log's own rounding; one array per contract name, all rows long. */
export interface Recording {
  readonly rows: number;
  /** s, true time of each row */
  readonly time: Float64Array;
  readonly channels: ReadonlyMap<string, Float64Array>;
  readonly mode: readonly string[];
  /** whether the aircraft was off the ground */
  readonly isAloft: (row: number) => boolean;
  /** rad/s, the body's real rates: roll, pitch, yaw */
  readonly trueRate: readonly [Float64Array, Float64Array, Float64Array];
  /** s at which the aircraft hit the ground hard, or null */
  readonly crash: number | null;
}

/** Collects rows; the readers are called once per row. */
export function createRecorder(capacity: number, readers: ReadonlyMap<string, () => number>) {
  const arrays = new Map([...readers.keys()].map((name) => [name, new Float64Array(capacity)]));
  const pairs = [...readers].map(([name, read]) => ({ array: arrays.get(name)!, read }));
  const time = new Float64Array(capacity);
  let rows = 0;
  return {
    /** rows so far */
    count: () => rows,
    record(at: number): void {
      if (rows >= capacity) return;
      time[rows] = at;
      for (const { array, read } of pairs) array[rows] = read();
      rows++;
    },
    time: () => time.slice(0, rows),
    channels: () => new Map([...arrays].map(([name, array]) => [name, array.slice(0, rows)])),
  };
}
