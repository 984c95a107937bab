import { GRAVITY } from "../scenario/setup.ts";
import type { FaultMakers } from "./fault-effect.ts";

/** Faults of one motor or its propeller. */
export const motorFaults: FaultMakers<"motor-tilt" | "weak-motor" | "slow-motor" | "damaged-blade"> = {
  "motor-tilt": ({ motor, degrees }) => ({
    adjust: ({ vehicle }, strength) => {
      vehicle.tilt[motor - 1] = vehicle.tilt[motor - 1]! + (strength * degrees * Math.PI) / 180;
    },
  }),
  "weak-motor": ({ motor, loss }) => ({
    adjust: ({ vehicle }, strength) => {
      vehicle.maxThrust[motor - 1] = vehicle.maxThrust[motor - 1]! * (1 - strength * loss);
    },
  }),
  "slow-motor": ({ motor, factor }) => ({
    adjust: ({ vehicle }, strength) => {
      vehicle.lag[motor - 1] = vehicle.lag[motor - 1]! * (1 + strength * (factor - 1));
    },
  }),
  "damaged-blade": ({ motor, force, loss }, { vehicle: healthy }) => ({
    adjust: ({ vehicle, shake }, strength) => {
      // The pull grows with the square of rotor speed, as thrust does: from its size in hover to that at full speed.
      const hover = (healthy.mass * GRAVITY) / healthy.motors / healthy.maxThrust[motor - 1]!;
      shake[motor - 1] = shake[motor - 1]! + (strength * force) / Math.min(1, hover);
      vehicle.maxThrust[motor - 1] = vehicle.maxThrust[motor - 1]! * (1 - strength * loss);
    },
  }),
};
