import { type Allocation, allocate } from "./allocate.ts";
import type { ControlAxes } from "./control-axes.ts";
import type { Gains } from "./tune-gains.ts";

/** What the controller is told and what it says, in arrays that live as long as the flight; roll, pitch, yaw. */
export interface ControlSignals {
  readonly rateMeasured: Float64Array;
  readonly rateSetpoint: Float64Array;
  readonly integrator: Float64Array;
  readonly output: Float64Array;
  /** rad, Euler angles */
  readonly attitudeMeasured: Float64Array;
  readonly attitudeSetpoint: Float64Array;
  /** m and m/s, north, east, down, as the navigation believes */
  readonly position: Float64Array;
  readonly velocity: Float64Array;
  readonly velocitySetpoint: Float64Array;
  /** 0..1 */
  collective: number;
  /** thrust shares, one per motor */
  readonly share: Float64Array;
}

/** What is asked of the controller at one tick of the plan. */
export interface Wanted {
  readonly position: Float64Array;
  readonly velocity: Float64Array;
  /** m/s^2, asked for in advance of any error */
  readonly acceleration: Float64Array;
  heading: number;
  headingRate: number;
  /** rad, rad, rad/s; NaN where the pilot's hands are off */
  readonly stick: Float64Array;
  flying: boolean;
}

export interface ControllerSettings {
  readonly gains: Gains;
  readonly axes: ControlAxes;
  readonly allocation: Allocation;
  readonly windup: "none" | "hold";
  readonly limit: readonly [number, number, number];
  /** thrust share of the armed floor */
  readonly floor: number;
  /** rad */
  readonly tilt: number;
  /** thrust share that carries the weight in hover */
  readonly hover: number;
  readonly gravity: number;
  readonly motors: number;
}

/** rad/s, the most that the attitude loop asks of the rate loop: roll, pitch, yaw */
const RATE_LIMIT = [2.5, 2.5, 1.2];
/** s, time constant of the filter on the derivative */
export const DERIVATIVE_LAG = 0.01;

/** Position, velocity, attitude and rate loops in a cascade, then allocation to the motors. */
export function createController(settings: ControllerSettings) {
  const { gains, axes, limit, floor, gravity, hover, motors } = settings;
  const signals: ControlSignals = {
    rateMeasured: new Float64Array(3),
    rateSetpoint: new Float64Array(3),
    integrator: new Float64Array(3),
    output: new Float64Array(3),
    attitudeMeasured: new Float64Array(3),
    attitudeSetpoint: new Float64Array(3),
    position: new Float64Array(3),
    velocity: new Float64Array(3),
    velocitySetpoint: new Float64Array(3),
    collective: 0,
    share: new Float64Array(motors),
  };
  /** multiplies p, i and d of an axis; faults turn it up */
  const gainFactor = Float64Array.of(1, 1, 1);
  /** what each integral term starts from at lift-off: the legs have let the loops feel the trim by then */
  const trim = new Float64Array(3);
  const lastRate = new Float64Array(3);
  const slope = new Float64Array(3);
  const velocityIntegral = new Float64Array(3);
  const offset = new Float64Array(3);
  let manual = false;
  let limited = false;
  let resting = true;

  /** Position and velocity to attitude set point and collective; dt in s. */
  function guide(wanted: Wanted, dt: number): void {
    const { position, velocity, velocitySetpoint, attitudeSetpoint } = signals;
    const hands = !Number.isNaN(wanted.stick[0]!);
    if (manual && !hands) {
      // The pilot let go: hold the place where that happened, not the one where the stick was taken.
      for (let k = 0; k < 2; k++) offset[k] = position[k]! - wanted.position[k]!;
      velocityIntegral.fill(0, 0, 2);
    }
    manual = hands;
    const ask = [0, 0, 0];
    for (let k = 0; k < 3; k++) {
      const away = wanted.position[k]! + offset[k]! - position[k]!;
      velocitySetpoint[k] = wanted.velocity[k]! + clamp(gains.position * away, 3);
      const error = velocitySetpoint[k]! - velocity[k]!;
      if (wanted.flying && !(hands && k < 2)) {
        velocityIntegral[k] = clamp(velocityIntegral[k]! + gains.velocity * gains.reset * error * dt, 4);
      }
      ask[k] = wanted.acceleration[k]! + gains.velocity * error + velocityIntegral[k]!;
    }
    const heading = wanted.heading;
    const forward = Math.cos(heading) * ask[0]! + Math.sin(heading) * ask[1]!;
    const right = -Math.sin(heading) * ask[0]! + Math.cos(heading) * ask[1]!;
    const up = Math.max(0.3 * gravity, gravity - ask[2]!);
    const pitch = hands ? wanted.stick[1]! : clamp(Math.atan2(-forward, up), settings.tilt);
    const roll = hands ? wanted.stick[0]! : clamp(Math.atan2(right, up), settings.tilt);
    attitudeSetpoint[0] = roll;
    attitudeSetpoint[1] = pitch;
    if (hands) attitudeSetpoint[2] = wrap(attitudeSetpoint[2]! + wanted.stick[2]! * dt);
    else attitudeSetpoint[2] = wrap(heading);
    const lean = Math.max(0.6, Math.cos(signals.attitudeMeasured[0]!) * Math.cos(signals.attitudeMeasured[1]!));
    signals.collective = clamp01((hover * up) / gravity / lean);
  }

  /** Attitude error to rate set point, rate error to axis outputs, outputs to thrust shares; dt in s. */
  function steer(wanted: Wanted, dt: number): void {
    const { rateMeasured, rateSetpoint, integrator, output, attitudeMeasured, attitudeSetpoint } = signals;
    if (!wanted.flying) {
      rest();
      return;
    }
    if (resting) for (let k = 0; k < 3; k++) integrator[k] = clamp(trim[k]!, limit[k]!);
    resting = false;
    const roll = attitudeMeasured[0]!;
    const pitch = attitudeMeasured[1]!;
    const hands = manual ? wanted.stick[2]! : wanted.headingRate;
    const rollRate = gains.attitude[0]! * (attitudeSetpoint[0]! - roll);
    const pitchRate = gains.attitude[1]! * (attitudeSetpoint[1]! - pitch);
    const yawRate = gains.attitude[2]! * wrap(attitudeSetpoint[2]! - attitudeMeasured[2]!) + hands;
    // From rates of the Euler angles to body rates.
    rateSetpoint[0] = clamp(rollRate - Math.sin(pitch) * yawRate, RATE_LIMIT[0]!);
    rateSetpoint[1] = clamp(Math.cos(roll) * pitchRate + Math.sin(roll) * Math.cos(pitch) * yawRate, RATE_LIMIT[1]!);
    rateSetpoint[2] = clamp(-Math.sin(roll) * pitchRate + Math.cos(roll) * Math.cos(pitch) * yawRate, RATE_LIMIT[2]!);
    const blend = dt / (DERIVATIVE_LAG + dt);
    for (let k = 0; k < 3; k++) {
      const error = rateSetpoint[k]! - rateMeasured[k]!;
      slope[k] = slope[k]! + blend * ((rateMeasured[k]! - lastRate[k]!) / dt - slope[k]!);
      lastRate[k] = rateMeasured[k]!;
      const factor = gainFactor[k]!;
      if (!(limited && settings.windup === "hold")) {
        integrator[k] = clamp(integrator[k]! + factor * gains.i[k]! * error * dt, limit[k]!);
      }
      output[k] = clamp(factor * (gains.p[k]! * error - gains.d[k]! * slope[k]!) + integrator[k]!, 1);
    }
  }

  /** Thrust shares for outputs that may have been held up on their way. */
  function share(output: Float64Array, flying: boolean): void {
    if (flying) limited = allocate(axes, settings.allocation, signals.collective, output, floor, signals.share);
    else signals.share.fill(floor);
  }

  function rest(): void {
    resting = true;
    signals.rateSetpoint.fill(0);
    signals.integrator.fill(0);
    signals.output.fill(0);
    signals.collective = 0;
    velocityIntegral.fill(0);
    slope.fill(0);
    lastRate.set(signals.rateMeasured);
  }

  return { signals, gainFactor, trim, guide, steer, share };
}

export type Controller = ReturnType<typeof createController>;

function clamp(value: number, most: number): number {
  return Math.max(-most, Math.min(most, value));
}

function clamp01(value: number): number {
  return Math.max(0, Math.min(1, value));
}

/** An angle within -pi..pi. */
export function wrap(angle: number): number {
  return angle - 2 * Math.PI * Math.round(angle / (2 * Math.PI));
}
