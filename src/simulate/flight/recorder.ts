import { noiseStream } from "../physics/noise-stream.ts";
import { STREAM } from "./streams.ts";

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

interface RecorderSettings {
  /** rows at the most */
  readonly capacity: number;
  /** Hz */
  readonly rate: number;
  /** s by which a row is late, one standard deviation of a half-normal */
  readonly jitter: number;
  readonly seed: number;
  /** called once per row, by channel */
  readonly readers: ReadonlyMap<string, () => number>;
}

/** Collects rows at a steady rate, each a little late. */
export function createRecorder({ capacity, rate, jitter, seed, readers }: RecorderSettings) {
  const arrays = new Map([...readers.keys()].map((name) => [name, new Float64Array(capacity)]));
  const pairs = [...readers].map(([name, read]) => ({ array: arrays.get(name)!, read }));
  const times = new Float64Array(capacity);
  const noise = noiseStream(seed, STREAM.rows);
  const interval = 1 / rate;
  let rows = 0;
  let next = 0;
  return {
    /** records a row if one is due at this time, s */
    at(time: number): void {
      if (time < next || rows >= capacity) return;
      times[rows] = time;
      for (const { array, read } of pairs) array[rows] = read();
      rows++;
      next = rows * interval + Math.min(0.4 * interval, Math.abs(jitter * noise.gaussian()));
    },
    finish(modes: readonly string[], crash: number | null): Recording {
      const cut = (name: string) => arrays.get(name)!.slice(0, rows);
      const aloft = cut("true.aloft");
      return {
        rows,
        time: times.slice(0, rows),
        channels: new Map(
          [...arrays.keys()].filter((name) => !name.startsWith("true.")).map((name) => [name, cut(name)]),
        ),
        mode: Array.from(cut("true.mode"), (index) => modes[index]!),
        isAloft: (row) => aloft[row] === 1,
        trueRate: [cut("true.roll"), cut("true.pitch"), cut("true.yaw")],
        crash,
      };
    },
  };
}
