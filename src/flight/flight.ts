import type { Aircraft } from "../aircraft/aircraft.ts";
import type { Channel, Span } from "../log/channel.ts";
import type { Log } from "../log/log.ts";

export const PHASE_KINDS = ["ground", "climb", "hover", "cruise", "turn", "descent", "unknown"] as const;
export type PhaseKind = (typeof PHASE_KINDS)[number];

/** A stretch of the flight in which the aircraft did one thing. */
export interface Phase extends Span {
  readonly kind: PhaseKind;
  /** m/s, mean speed in cruise, where known */
  readonly speed: number | null;
  /** number of the speed step in cruise, from 1 in order of first appearance */
  readonly step: number | null;
  /** number of the leg in cruise, from 1 in order of time */
  readonly leg: number | null;
}

/** Channels on one clock, what was flown, and what it was doing when. */
export interface Flight {
  readonly log: Log;
  /** set points that stood still while the axis moved; `log` is without them */
  readonly still: readonly Channel[];
  /** null: a diagnosis without geometry */
  readonly aircraft: Aircraft | null;
  /** the stretch that was asked for and holds data: never past the point where the log froze */
  readonly span: Span;
  /** in order, without overlap, covering `span` */
  readonly phases: readonly Phase[];
  /** spans in the air; shares of time are counted over these */
  readonly airborne: readonly Span[];
  /** how air time was decided, in a few words */
  readonly airborneBy: string;
  /** false oscillations an hour of flight that whoever asks accepts */
  readonly falseAlarms: number;
}

/** False oscillations an hour of flight unless told otherwise. */
export const FALSE_ALARMS = 0.5;

/** The channel, if the log has it. */
export function channelOf(flight: Pick<Flight, "log">, name: string): Channel | undefined {
  return flight.log.channels.get(name);
}

/** Numbers of the motors whose command is logged, ascending. */
export const commandedMotors = (flight: Pick<Flight, "log">): number[] => motorsWith(flight, "command");

/** Numbers of the motors of which a quantity is logged, ascending. */
export function motorsWith({ log }: Pick<Flight, "log">, quantity: "command" | "speed"): number[] {
  const pattern = new RegExp(`^motor\\.(\\d+)\\.${quantity}$`);
  const numbers = [...log.channels.keys()].flatMap((name) => pattern.exec(name)?.[1] ?? []);
  return numbers.map(Number).sort((a, b) => a - b);
}
