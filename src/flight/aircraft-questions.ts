import type { Aircraft } from "../aircraft/aircraft.ts";
import type { Log, Question } from "../log/log.ts";
import { endsOf } from "../signal/index.ts";
import { commandedMotors } from "./flight.ts";

/** Share of the command range that motors in flight pass by far: hover takes a third of it and more (common practice). */
const HARDLY_ANY = 0.05;
/** Times the command range above its top: more than a carelessly written range explains. */
const FAR_BEYOND = 0.5;

/**
 * What makes it doubtful that an aircraft file belongs to a log: motor commands in another unit (a log whose columns were
 * matched by words; with a map it is an error), or that hardly rise above the bottom of its range, or far beyond its top. What lies
 * below the bottom is no sign: many write 0 for a motor at rest.
 *
 * @returns no question or one
 */
export function aircraftQuestions(log: Log, aircraft: Aircraft | null): Question[] {
  if (aircraft === null) return [];
  const motors = commandedMotors({ log }).map((motor) => log.channels.get(`motor.${motor}.command`)!);
  const first = motors[0];
  if (first === undefined) return [];
  const { unit, min, max } = aircraft.command;
  const ask = (text: string): Question[] => [{ channel: first.name, column: first.column, text }];
  const other = motors.find((motor) => motor.unit !== unit);
  if (other !== undefined) {
    return ask(`Are the motor commands in ${spoken(unit)} as in the aircraft file, and not in ${spoken(other.unit)}?`);
  }
  const reach = Math.max(...motors.map(({ series }) => endsOf(series.values).most));
  const share = (reach - min) / (max - min);
  if (share > HARDLY_ANY && share <= 1 + FAR_BEYOND) return [];
  const size = Number(reach.toPrecision(4));
  return ask(
    `Is this the right aircraft file (its motor commands go from ${min} to ${max}, those of the log up to ${size})?`,
  );
}

const spoken = (unit: string) => (unit === "1" ? "plain numbers (unit 1)" : unit);
