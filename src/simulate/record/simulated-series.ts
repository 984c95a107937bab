import type { Series } from "../../log/channel.ts";
import type { LogTable } from "./log-table.ts";

/**
 * The channels of a simulated log by contract name, in SI units (motor commands in the unit of the aircraft file), as
 * a reader would find them in the file: rounded, without empty cells, rows with repeated stamps left out.
 * For tests and studies that need no file.
 */
export function simulatedSeries({ time, rows, columns }: LogTable): Map<string, Series> {
  const start = time[0] ?? 0;
  return new Map(
    columns.map(({ channel, values, scale }) => {
      const times: number[] = [];
      const kept: number[] = [];
      let last = Number.NEGATIVE_INFINITY;
      for (let row = 0; row < rows; row++) {
        const value = values[row]!;
        if (Number.isNaN(value) || time[row]! <= last) continue;
        last = time[row]!;
        times.push(last - start);
        kept.push(value / scale);
      }
      return [channel, { time: Float64Array.from(times), values: Float64Array.from(kept) }];
    }),
  );
}
