import { gainFactorForDamping } from "../control/loop-pole.ts";
import { AXIS_INDEX, type FaultMakers } from "./fault-effect.ts";

/** Faults of the control loop itself: too much gain, too late, too little damping left. */
export const controllerFaults: FaultMakers<"rate-gain" | "loop-delay" | "light-damping"> = {
  "rate-gain": ({ axis, factor }) => ({
    adjust: ({ controller }, strength) => {
      const k = AXIS_INDEX[axis];
      controller.gainFactor[k] = controller.gainFactor[k]! * (1 + strength * (factor - 1));
    },
  }),
  "loop-delay": ({ axis, delay }) => ({
    adjust: ({ outputDelay }, strength) => {
      const k = AXIS_INDEX[axis];
      outputDelay[k] = outputDelay[k]! + strength * delay;
    },
  }),
  "light-damping": ({ axis, damping }, setup) => {
    const factor = gainFactorForDamping(setup, axis, damping);
    return {
      adjust: ({ controller }, strength) => {
        const k = AXIS_INDEX[axis];
        controller.gainFactor[k] = controller.gainFactor[k]! * (1 + strength * (factor - 1));
      },
    };
  },
};
