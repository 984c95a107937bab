import { STATE } from "../physics/rigid-body.ts";
import type { Vehicle } from "../physics/vehicle.ts";
import { GRAVITY } from "../scenario/setup.ts";
import { changeBody, type FaultMakers } from "./fault-effect.ts";

/** Faults of what the aircraft carries, and of the air. */
export const loadFaults: FaultMakers<"payload" | "boom" | "cg-offset" | "swinging-load" | "gusts" | "rate-clipping"> = {
  payload: ({ mass, x, y }) => ({
    adjust: ({ vehicle }, strength) => attach(vehicle, strength * mass, x, y),
  }),
  boom: ({ mass, reach, moment, slope }) => ({
    adjust: (patient, strength) => {
      attach(patient.vehicle, strength * mass, reach, 0);
      const { pitching } = patient.vehicle.body;
      changeBody(patient, {
        pitching: { moment: pitching.moment + strength * moment, slope: pitching.slope + strength * slope },
      });
    },
  }),
  "cg-offset": ({ x, y }) => ({
    adjust: ({ vehicle }, strength) => {
      vehicle.centre[0] = vehicle.centre[0]! + strength * x;
      vehicle.centre[1] = vehicle.centre[1]! + strength * y;
    },
  }),
  "swinging-load": ({ mass, length, below, swing, damping }) => {
    // Two small angles of the line from the body's down axis, forward and right; rad.
    const angle = [swing, 0];
    const rate = [0, 0];
    const omega = Math.sqrt(GRAVITY / length);
    return {
      push: ({ specificForce, state, dt }, strength, wrench) => {
        const tension = mass * GRAVITY * strength;
        for (let k = 0; k < 2; k++) {
          const felt = specificForce[k]!;
          // The line turns in earth axes at `rate`; the angle from the body's down axis also changes as the body turns.
          const spin = k === 0 ? state[STATE.rate + 1]! : -state[STATE.rate]!;
          const pull = -omega * omega * angle[k]! - felt / length - 2 * damping * omega * (rate[k]! - spin);
          rate[k] = rate[k]! + pull * dt;
          angle[k] = Math.max(-1.2, Math.min(1.2, angle[k]! + (rate[k]! - spin) * dt));
        }
        const forward = tension * Math.sin(angle[0]!);
        const right = tension * Math.sin(angle[1]!);
        wrench[0] = wrench[0]! + forward;
        wrench[1] = wrench[1]! + right;
        wrench[2] = wrench[2]! + tension * Math.cos(angle[0]!) * Math.cos(angle[1]!);
        wrench[3] = wrench[3]! - below * right;
        wrench[4] = wrench[4]! + below * forward;
      },
    };
  },
  gusts: ({ wind20 }) => ({
    adjust: ({ air }, strength) => {
      air.gusts += strength * (wind20 - air.gusts);
    },
  }),
  "rate-clipping": ({ limit }) => ({
    adjust: ({ gyro }) => {
      gyro.limit = Math.min(gyro.limit, limit);
    },
  }),
};

/** Fixes a mass at x, y m: two bodies about their common centre, by the parallel-axis theorem with the reduced mass. */
function attach(vehicle: Vehicle, added: number, x: number, y: number): void {
  const before = vehicle.mass;
  vehicle.mass = before + added;
  const reduced = (before * added) / vehicle.mass;
  const awayX = x - vehicle.centre[0]!;
  const awayY = y - vehicle.centre[1]!;
  vehicle.inertia[0] = vehicle.inertia[0]! + reduced * awayY ** 2;
  vehicle.inertia[1] = vehicle.inertia[1]! + reduced * awayX ** 2;
  vehicle.inertia[2] = vehicle.inertia[2]! + reduced * (awayX ** 2 + awayY ** 2);
  vehicle.centre[0] = vehicle.centre[0]! + (added / vehicle.mass) * awayX;
  vehicle.centre[1] = vehicle.centre[1]! + (added / vehicle.mass) * awayY;
}
