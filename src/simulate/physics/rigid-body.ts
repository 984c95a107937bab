import type { Vehicle } from "./vehicle.ts";

/** Where the parts of the state lie: earth position and velocity (north, east, down), attitude, body rates, rotors. */
export const STATE = { position: 0, velocity: 3, attitude: 6, rate: 10, rotor: 13 } as const;

/** Everything outside the vehicle that acts on it during one step. */
export interface Surroundings {
  /** m/s^2 */
  gravity: number;
  /** kg/m^3 */
  density: number;
  /** m/s, north, east, down */
  readonly wind: Float64Array;
  /** force and moment from outside, six numbers in body axes */
  readonly push: Float64Array;
  /** commands as fractions 0..1, one per motor, held over the step */
  readonly command: Float64Array;
  /** thrust at this voltage over thrust at nominal voltage */
  thrustFactor: number;
}

/**
 * A rigid multirotor in six degrees of freedom, moved by the classical Runge-Kutta method at a fixed step.
 * The attitude is a unit quaternion (scalar first, body to earth). A rotor's state is the command fraction that it
 * has reached: it follows the command with a first-order lag, and thrust = max * fraction^exponent.
 */
export interface RigidBody {
  readonly state: Float64Array;
  /** N, thrust of each motor at the last step's beginning */
  readonly thrust: Float64Array;
  /** m/s^2, what an accelerometer at the centre of gravity feels, at the last step's beginning */
  readonly specificForce: Float64Array;
  /** m/s, velocity against the air in body axes, at the last step's beginning */
  readonly airVelocity: Float64Array;
  step(dt: number): void;
}

export function createRigidBody(vehicle: Vehicle, around: Surroundings): RigidBody {
  const size = STATE.rotor + vehicle.motors;
  const state = new Float64Array(size);
  state[STATE.attitude] = 1;
  const thrust = new Float64Array(vehicle.motors);
  const specificForce = new Float64Array(3);
  const airVelocity = new Float64Array(3);
  const k1 = new Float64Array(size);
  const k2 = new Float64Array(size);
  const k3 = new Float64Array(size);
  const k4 = new Float64Array(size);
  const trial = new Float64Array(size);

  function derive(x: Float64Array, dx: Float64Array, keep: boolean): void {
    const { motors, wrench, maxThrust, exponent, lag, mass, inertia, body } = vehicle;
    const { wind, push, command, thrustFactor, density } = around;
    let fx = push[0]!;
    let fy = push[1]!;
    let fz = push[2]!;
    let mx = push[3]!;
    let my = push[4]!;
    let mz = push[5]!;
    for (let i = 0, w = 0; i < motors; i++, w += 6) {
      const reached = x[STATE.rotor + i]!;
      const share = exponent === 2 ? reached * reached : reached > 0 ? reached ** exponent : 0;
      const force = maxThrust[i]! * thrustFactor * share;
      fx += wrench[w]! * force;
      fy += wrench[w + 1]! * force;
      fz += wrench[w + 2]! * force;
      mx += wrench[w + 3]! * force;
      my += wrench[w + 4]! * force;
      mz += wrench[w + 5]! * force;
      dx[STATE.rotor + i] = (command[i]! - reached) / lag[i]!;
      if (keep) thrust[i] = force;
    }
    const a = x[6]!;
    const b = x[7]!;
    const c = x[8]!;
    const d = x[9]!;
    const r11 = a * a + b * b - c * c - d * d;
    const r12 = 2 * (b * c - a * d);
    const r13 = 2 * (b * d + a * c);
    const r21 = 2 * (b * c + a * d);
    const r22 = a * a - b * b + c * c - d * d;
    const r23 = 2 * (c * d - a * b);
    const r31 = 2 * (b * d - a * c);
    const r32 = 2 * (c * d + a * b);
    const r33 = a * a - b * b - c * c + d * d;
    const north = x[3]! - wind[0]!;
    const east = x[4]! - wind[1]!;
    const down = x[5]! - wind[2]!;
    const u = r11 * north + r21 * east + r31 * down;
    const v = r12 * north + r22 * east + r32 * down;
    const w = r13 * north + r23 * east + r33 * down;
    const speed = Math.sqrt(u * u + v * v + w * w);
    const p = x[10]!;
    const q = x[11]!;
    const r = x[12]!;
    const { linear, heave, area } = body.drag;
    const perSpeed = linear + 0.5 * density * area * speed;
    fx -= perSpeed * u;
    fy -= perSpeed * v;
    fz -= (perSpeed + heave) * w;
    my += body.pitching.moment * u * Math.abs(u) + body.pitching.slope * u * w;
    mx += -body.flapping * v - body.damping * p;
    my += body.flapping * u - body.damping * q;
    mz -= body.damping * r;
    const ax = fx / mass;
    const ay = fy / mass;
    const az = fz / mass;
    dx[0] = x[3]!;
    dx[1] = x[4]!;
    dx[2] = x[5]!;
    dx[3] = r11 * ax + r12 * ay + r13 * az;
    dx[4] = r21 * ax + r22 * ay + r23 * az;
    dx[5] = r31 * ax + r32 * ay + r33 * az + around.gravity;
    dx[6] = 0.5 * (-b * p - c * q - d * r);
    dx[7] = 0.5 * (a * p + c * r - d * q);
    dx[8] = 0.5 * (a * q + d * p - b * r);
    dx[9] = 0.5 * (a * r + b * q - c * p);
    const ix = inertia[0]!;
    const iy = inertia[1]!;
    const iz = inertia[2]!;
    dx[10] = (mx - (iz - iy) * q * r) / ix;
    dx[11] = (my - (ix - iz) * p * r) / iy;
    dx[12] = (mz - (iy - ix) * p * q) / iz;
    if (!keep) return;
    specificForce[0] = ax;
    specificForce[1] = ay;
    specificForce[2] = az;
    airVelocity[0] = u;
    airVelocity[1] = v;
    airVelocity[2] = w;
  }

  function step(dt: number): void {
    derive(state, k1, true);
    for (let i = 0; i < size; i++) trial[i] = state[i]! + (dt / 2) * k1[i]!;
    derive(trial, k2, false);
    for (let i = 0; i < size; i++) trial[i] = state[i]! + (dt / 2) * k2[i]!;
    derive(trial, k3, false);
    for (let i = 0; i < size; i++) trial[i] = state[i]! + dt * k3[i]!;
    derive(trial, k4, false);
    for (let i = 0; i < size; i++) state[i] = state[i]! + (dt / 6) * (k1[i]! + 2 * (k2[i]! + k3[i]!) + k4[i]!);
    const length = Math.hypot(state[6]!, state[7]!, state[8]!, state[9]!);
    for (let i = 6; i < 10; i++) state[i] = state[i]! / length;
  }

  return { state, thrust, specificForce, airVelocity, step };
}
