/** What was flown: geometry, command range and thrust curve. SI units; the command stays in the unit of the file. */
export interface Aircraft {
  readonly name: string;
  /** kg at take-off */
  readonly mass: Measured | null;
  /** in the order of the channels `motor.1.command`, `motor.2.command`, ... */
  readonly motors: readonly Motor[];
  readonly command: CommandRange;
  readonly thrust: ThrustCurve;
  /** largest size of the integral term, in the unit of `rate.AXIS.integrator` */
  readonly integratorLimit: Partial<Record<Axis, number>>;
  /** free text of the crew, carried into reports */
  readonly notes: Readonly<Record<string, string>>;
}

export const AXES = ["roll", "pitch", "yaw"] as const;
export type Axis = (typeof AXES)[number];

/** A value of the file with its standard error where the file states one. */
export interface Measured {
  readonly value: number;
  readonly error: number | null;
}

export interface Motor {
  /** m forward of the reference point (body axes of ISO 1151-1: x forward, y right, z down) */
  readonly x: number;
  /** m right of the reference point */
  readonly y: number;
  /** sense of rotation seen from above */
  readonly spin: "cw" | "ccw";
  /** the crew's word for it, "front left"; made from the position where the file has none */
  readonly label: string;
  /** N at full command, where known for this motor */
  readonly maxThrust: number | null;
}

export interface CommandRange {
  /** unit of `motor.N.command`: `us`, `1` or `%` */
  readonly unit: string;
  readonly min: number;
  readonly max: number;
  /** the armed floor; a motor is at its floor here */
  readonly idle: number;
}

export interface ThrustCurve {
  /** thrust = max * fraction^exponent; null where the file does not say */
  readonly exponent: number | null;
  /** N, one motor at full command */
  readonly max: number | null;
  /** m, reaction torque over thrust */
  readonly torqueRatio: number | null;
  /** s, first-order lag of the motor */
  readonly timeConstant: Measured | null;
}

/** (command - min) / (max - min): 0 at the bottom of the range, 1 at the ceiling. */
export function commandFraction(range: CommandRange, command: number): number {
  return (command - range.min) / (range.max - range.min);
}

/** Share of the largest thrust at a command fraction: fraction^exponent, exponent 2 where the file has none. */
export function thrustShare(curve: ThrustCurve, fraction: number): number {
  const exponent = curve.exponent ?? DEFAULT_THRUST_EXPONENT;
  const spun = Math.max(0, fraction);
  // The usual curve without the cost of a general power: a log has millions of commands.
  return exponent === 2 ? spun * spun : spun ** exponent;
}

/** Thrust goes with the square of rotor speed, and speed nearly with command (common practice). */
export const DEFAULT_THRUST_EXPONENT = 2;
