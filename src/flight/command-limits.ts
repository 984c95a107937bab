import type { Aircraft } from "../aircraft/aircraft.ts";
import type { Log } from "../log/log.ts";

/** Between what a motor's command can move, and how that is known. */
export interface CommandLimits {
  readonly min: number;
  readonly max: number;
  /** the armed floor */
  readonly idle: number;
  /** `aircraft`: from the aircraft file; `data`: the lowest and highest command in this log */
  readonly from: "aircraft" | "data";
  /** whether the top value is held (a plateau), which only a limit explains; always true for `aircraft` */
  readonly topIsHeld: boolean;
}

/** Samples in a row at the highest value that make it a plateau: chance keeps a moving command there for one or two. */
const PLATEAU_SAMPLES = 5;

/** The range of the motor commands: of the aircraft file, else of the data; null where no motor command is logged. */
export function commandLimits(log: Log, aircraft: Aircraft | null): CommandLimits | null {
  const commands = [...log.channels.values()].filter(({ name }) => /^motor\.\d+\.command$/.test(name));
  if (commands.length === 0) return null;
  if (aircraft !== null) return { ...aircraft.command, from: "aircraft", topIsHeld: true };
  let min = Number.POSITIVE_INFINITY;
  let max = Number.NEGATIVE_INFINITY;
  for (const { series } of commands) {
    for (const value of series.values) {
      if (value < min) min = value;
      if (value > max) max = value;
    }
  }
  if (!(max > min)) return null;
  const topIsHeld = commands.some(({ series }) => longestRunAt(series.values, max) >= PLATEAU_SAMPLES);
  return { min, max, idle: min, from: "data", topIsHeld };
}

function longestRunAt(values: Float64Array, level: number): number {
  let longest = 0;
  let run = 0;
  for (const value of values) {
    run = value === level ? run + 1 : 0;
    if (run > longest) longest = run;
  }
  return longest;
}
