import type { Aircraft } from "../../aircraft/index.ts";

/** Thrust coefficients of the body and rotors that an aircraft file does not hold; SI units. */
export interface Body {
  /** kg */
  readonly mass: number;
  /** kg m^2 about the centre of gravity: roll, pitch, yaw */
  readonly inertia: readonly [number, number, number];
  /** m, the true centre of gravity from the reference point of the aircraft file */
  readonly centre: { readonly x: number; readonly y: number };
  readonly drag: {
    /** N per m/s, along and across (rotor drag) */
    readonly linear: number;
    /** N per m/s, up and down: climbing rotors meet more air and give less thrust */
    readonly heave: number;
    /** m^2, drag coefficient times area */
    readonly area: number;
  };
  readonly pitching: {
    /** N m per (m/s)^2 of forward airspeed, positive nose up: a boom, a wing, a big payload */
    readonly moment: number;
    /** N m per rad of angle of attack and (m/s)^2, positive where it turns the nose further away from the wind */
    readonly slope: number;
  };
  /** N m per m/s of air across the rotor discs: they flap back and tilt the body away from the wind */
  readonly flapping: number;
  /** N m per rad/s, aerodynamic damping of the body's rotation */
  readonly damping: number;
}

/**
 * What the equations of motion need to know, in flat arrays. Faults change it in flight.
 * A wrench is six numbers: force x, y, z in N, then moment about roll, pitch, yaw in N m, in body axes.
 */
export interface Vehicle {
  readonly motors: number;
  mass: number;
  readonly inertia: Float64Array;
  /** m, true centre of gravity from the reference point */
  readonly centre: Float64Array;
  /** m, motor places from the reference point: x1, y1, x2, y2, ... */
  readonly places: Float64Array;
  /** +1 where the reaction torque turns the nose right (rotor turning counter-clockwise seen from above) */
  readonly reaction: Float64Array;
  /** rad, tangential tilt of each rotor axis: positive pushes the arm's end clockwise seen from above */
  readonly tilt: Float64Array;
  /** N at full command and nominal voltage */
  readonly maxThrust: Float64Array;
  readonly exponent: number;
  readonly torqueRatio: number;
  /** s, first-order lag of each motor */
  readonly lag: Float64Array;
  /** 6 per motor: the wrench of 1 N of its thrust */
  readonly wrench: Float64Array;
  body: Body;
}

/** Values for what an aircraft file leaves open: a middling multirotor of this mass. */
export const TYPICAL = { mass: 2, torqueRatio: 0.016, timeConstant: 0.05, exponent: 2, thrustToWeight: 2 };

/** A vehicle as the aircraft file has it, without faults. */
export function createVehicle(aircraft: Aircraft, body: Body, gravity: number): Vehicle {
  const count = aircraft.motors.length;
  const shared = aircraft.thrust.max ?? (TYPICAL.thrustToWeight * body.mass * gravity) / count;
  const vehicle: Vehicle = {
    motors: count,
    mass: body.mass,
    inertia: Float64Array.from(body.inertia),
    centre: Float64Array.of(body.centre.x, body.centre.y, 0),
    places: Float64Array.from(aircraft.motors.flatMap(({ x, y }) => [x, y])),
    reaction: Float64Array.from(aircraft.motors, ({ spin }) => (spin === "ccw" ? 1 : -1)),
    tilt: new Float64Array(count),
    maxThrust: Float64Array.from(aircraft.motors, (motor) => motor.maxThrust ?? shared),
    exponent: aircraft.thrust.exponent ?? TYPICAL.exponent,
    torqueRatio: aircraft.thrust.torqueRatio ?? TYPICAL.torqueRatio,
    lag: new Float64Array(count).fill(aircraft.thrust.timeConstant?.value ?? TYPICAL.timeConstant),
    wrench: new Float64Array(6 * count),
    body,
  };
  placeMotors(vehicle);
  return vehicle;
}

/** Copies the parameters that faults change; the arrays of `target` are kept. */
export function restoreVehicle(target: Vehicle, source: Vehicle): void {
  target.mass = source.mass;
  target.body = source.body;
  for (const key of ["inertia", "centre", "tilt", "maxThrust", "lag"] as const) target[key].set(source[key]);
}

/** Renews the motors' wrenches after a change of centre of gravity or tilt. */
export function placeMotors({ motors, places, centre, tilt, reaction, torqueRatio, wrench }: Vehicle): void {
  for (let i = 0; i < motors; i++) {
    const fromCentreX = places[2 * i]!;
    const fromCentreY = places[2 * i + 1]!;
    const reach = Math.hypot(fromCentreX, fromCentreY) || 1;
    const side = Math.sin(tilt[i]!);
    const forceX = (-fromCentreY / reach) * side;
    const forceY = (fromCentreX / reach) * side;
    const forceZ = -Math.cos(tilt[i]!);
    const x = fromCentreX - centre[0]!;
    const y = fromCentreY - centre[1]!;
    const twist = reaction[i]! * torqueRatio;
    // Arm cross force, and the reaction torque along the tilted axis (which points up, -z, for an upright rotor).
    wrench[6 * i] = forceX;
    wrench[6 * i + 1] = forceY;
    wrench[6 * i + 2] = forceZ;
    wrench[6 * i + 3] = y * forceZ - twist * forceX;
    wrench[6 * i + 4] = -x * forceZ - twist * forceY;
    wrench[6 * i + 5] = x * forceY - y * forceX - twist * forceZ;
  }
}
