import { type Aircraft, isSamePlace } from "../aircraft/index.ts";

/** The first thing in which two aircraft files describe different aircraft. */
export interface AircraftDifference {
  readonly key: string;
  readonly before: string;
  readonly after: string;
}

/**
 * Compares what makes numbers of two flights comparable: number, place and spin of the motors, command range and thrust
 * curve. Name, mass and notes may differ: they are what a crew changes.
 *
 * @returns null where nothing of this differs, or an aircraft file is missing
 */
export function aircraftDifference(before: Aircraft | null, after: Aircraft | null): AircraftDifference | null {
  if (before === null || after === null) return null;
  const differs = (key: string, one: unknown, other: unknown): AircraftDifference | null =>
    one === other ? null : { key, before: String(one), after: String(other) };
  const count = differs("motors", before.motors.length, after.motors.length);
  if (count !== null) return count;
  for (const [i, motor] of before.motors.entries()) {
    const other = after.motors[i]!;
    if (!isSamePlace(motor, other)) {
      return { key: `motors.${i}`, before: `x ${motor.x}, y ${motor.y}`, after: `x ${other.x}, y ${other.y}` };
    }
    const spin = differs(`motors.${i}.spin`, motor.spin, other.spin);
    if (spin !== null) return spin;
  }
  for (const key of ["unit", "min", "max", "idle"] as const) {
    const range = differs(`command.${key}`, before.command[key], after.command[key]);
    if (range !== null) return range;
  }
  return differs("thrust.exponent", before.thrust.exponent, after.thrust.exponent);
}
