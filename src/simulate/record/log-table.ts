import { isLoggingFault } from "../faults/fault.ts";
import type { Flown } from "../flight/fly.ts";
import { STREAM } from "../flight/streams.ts";
import { noiseStream } from "../physics/noise-stream.ts";
import { type ColumnFormat, logColumns } from "./log-columns.ts";

/** A log as a file would hold it: stamps and rounded cells in the units of its columns, with all that went wrong. */
export interface LogTable {
  readonly rows: number;
  /** s, as stamped */
  readonly time: Float64Array;
  readonly columns: readonly LogColumn[];
  /** flight mode, a word a row */
  readonly mode: readonly string[];
}

export interface LogColumn extends ColumnFormat {
  /** one cell a row, NaN where it is empty */
  readonly values: Float64Array;
}

/** What the logger makes of a flight: fewer values, rounding, and the scenario's logging faults. */
export function logTable({ setup, recording }: Flown): LogTable {
  const { scenario } = setup;
  const faults = scenario.faults.filter(isLoggingFault);
  const rows: number[] = [];
  for (let row = 0; row < recording.rows; row++) {
    const at = recording.time[row]!;
    const lost = faults.some((fault) => fault.kind === "log-gap" && row > 0 && at >= fault.start && at < fault.end);
    if (!lost) rows.push(row);
  }
  const time = Float64Array.from(rows, (row) => recording.time[row]!);
  const frozen = Math.min(...faults.map((fault) => (fault.kind === "frozen-end" ? fault.start : Infinity)));
  const columns = logColumns(scenario.aircraft, scenario.log.omit).map((format): LogColumn => {
    const source = recording.channels.get(format.channel)!;
    const every = scenario.log.every[format.group];
    const step = 10 ** format.decimals;
    const stuck = faults.filter((fault) => fault.kind === "stuck-channel" && isNamed(format.channel, fault.channel));
    const values = new Float64Array(rows.length).fill(Number.NaN);
    let last = Number.NaN;
    for (const [i, row] of rows.entries()) {
      if (row % every !== 0) continue;
      const at = time[i]!;
      const held = at >= frozen || stuck.some(({ start, end }) => at >= start && (end === undefined || at < end));
      // Adding 0 turns -0 into 0.
      if (!held || Number.isNaN(last)) last = Math.round(source[row]! * format.scale * step) / step + 0;
      values[i] = last;
    }
    return { ...format, values };
  });
  let word = recording.mode[0]!;
  const mode = rows.map((row, i) => {
    if (time[i]! < frozen) word = recording.mode[row]!;
    return word;
  });
  return { rows: rows.length, time: stamp(time, faults, scenario.seed), columns, mode };
}

function stamp(time: Float64Array, faults: readonly { kind: string }[], seed: number): Float64Array {
  const stamps = time.slice();
  const noise = noiseStream(seed, STREAM.stamps);
  for (const fault of faults as Flown["setup"]["scenario"]["faults"]) {
    const holds = (at: number) => at >= fault.start && (fault.end === undefined || at < fault.end);
    for (let i = 1; i < time.length; i++) {
      if (!holds(time[i]!)) continue;
      if (fault.kind === "log-jitter") stamps[i] = Math.max(stamps[0]!, stamps[i]! + fault.sd * noise.gaussian());
      if (fault.kind === "repeated-stamps" && i % fault.every === 0) stamps[i] = stamps[i - 1]!;
    }
  }
  return stamps.map((value) => Math.round(value * 1e4) / 1e4);
}

function isNamed(channel: string, name: string): boolean {
  return channel === name || channel.startsWith(`${name}.`);
}
