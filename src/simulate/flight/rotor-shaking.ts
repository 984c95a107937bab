import { STATE } from "../physics/rigid-body.ts";
import type { RotorSettings } from "../physics/rotor-power.ts";
import type { Vehicle } from "../physics/vehicle.ts";

/** Rotor speeds, and what unbalanced rotors shake into the sensors. */
export interface RotorShaking {
  /** rad/s, one per motor */
  readonly speed: Float64Array;
  /** takes the rotors on by dt seconds; `thrustFactor` as in the surroundings of the body */
  turn(state: Float64Array, thrustFactor: number, dt: number): void;
  /** rad/s in the gyro of an axis (0 roll, 1 pitch, 2 yaw) */
  rate(axis: number): number;
  /** m/s^2 in the accelerometer of an axis (0 x, 1 y, 2 z) */
  acceleration(axis: number): number;
}

/**
 * Each rotor pulls outwards with a force that turns with it and grows with the square of its speed; that force acts on
 * the mass of the aircraft and, a little above its centre of gravity, on its inertia.
 *
 * @param shake N at full speed, one per motor, on top of a sound rotor's imbalance; read at every call
 */
export function rotorShaking(vehicle: Vehicle, rotor: RotorSettings, shake: Float64Array): RotorShaking {
  const { motors, exponent, places } = vehicle;
  const speed = new Float64Array(motors);
  const phase = new Float64Array(motors);
  // Rotors stand a seventh of an arm's length above the centre.
  const lever = 0.15 * Math.hypot(places[0]!, places[1]!);
  const pull = (i: number) => (rotor.imbalance + shake[i]!) * (speed[i]! / rotor.speed) ** 2;
  return {
    speed,
    turn(state, thrustFactor, dt) {
      const voltage = Math.sqrt(thrustFactor);
      for (let i = 0; i < motors; i++) {
        const reached = state[STATE.rotor + i]!;
        // Thrust goes with the square of speed, and with the command fraction to the power of the exponent.
        const relative = exponent === 2 ? reached : Math.max(0, reached) ** (exponent / 2);
        speed[i] = rotor.speed * relative * voltage;
        phase[i] = (phase[i]! + speed[i]! * dt) % (2 * Math.PI);
      }
    },
    rate(axis) {
      let rate = 0;
      for (let i = 0; i < motors; i++) {
        if (speed[i]! < 1) continue;
        const arm = axis === 2 ? 0.2 * lever : lever;
        const turning = axis === 0 ? Math.sin(phase[i]!) : Math.cos(phase[i]!);
        rate += (pull(i) * arm * turning) / (vehicle.inertia[axis]! * speed[i]!);
      }
      return rate;
    },
    acceleration(axis) {
      let force = 0;
      for (let i = 0; i < motors; i++) {
        const turning = axis === 1 ? Math.sin(phase[i]!) : Math.cos(phase[i]!);
        force += pull(i) * turning * (axis === 2 ? 0.5 : 1);
      }
      return force / vehicle.mass;
    },
  };
}
