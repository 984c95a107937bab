import { channelOf, commandedMotors, type Flight } from "../flight/flight.ts";

/** The range that motor commands are drawn against, in the unit of the command. */
export interface CommandLimits {
  readonly min: number;
  readonly max: number;
  /** the armed floor */
  readonly idle: number;
  readonly unit: string;
  /** false: no aircraft file, the range is only what this log happened to reach */
  readonly known: boolean;
}

/** Ceiling and floor from the aircraft file, or the span of the logged commands where there is none. */
export function commandLimits(flight: Flight): CommandLimits {
  if (flight.aircraft !== null) {
    const { min, max, idle, unit } = flight.aircraft.command;
    return { min, max, idle, unit, known: true };
  }
  let min = Number.POSITIVE_INFINITY;
  let max = Number.NEGATIVE_INFINITY;
  let unit = "1";
  for (const motor of commandedMotors(flight)) {
    const channel = channelOf(flight, `motor.${motor}.command`)!;
    unit = channel.unit;
    for (const value of channel.series.values) {
      if (value < min) min = value;
      if (value > max) max = value;
    }
  }
  if (!(max > min)) max = min + 1;
  return { min, max, idle: min, unit, known: false };
}

/** 0 at the bottom of the range, 1 at the ceiling. */
export function fractionOf(limits: CommandLimits, command: number): number {
  return (command - limits.min) / (limits.max - limits.min);
}
