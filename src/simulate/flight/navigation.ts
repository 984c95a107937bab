import type { ControlSignals } from "../control/controller.ts";
import { STATE } from "../physics/rigid-body.ts";
import type { Scenario } from "../scenario/scenario.ts";
import { wanderer } from "./sensors.ts";
import { STREAM } from "./streams.ts";

/** Position, velocity and attitude as the navigation believes them: true, and a little off in a slow way. */
export function createNavigation({ seed, sensors }: Scenario, interval: number, signals: ControlSignals) {
  const attitudeError = wanderer(3, 4, interval, seed, STREAM.attitude);
  const positionError = wanderer(3, 15, interval, seed, STREAM.position);
  const velocityError = wanderer(3, 3, interval, seed, STREAM.velocity);
  return {
    /** once per interval */
    renew(state: Float64Array): void {
      attitudeError.step();
      positionError.step();
      velocityError.step();
      for (let k = 0; k < 3; k++) {
        signals.position[k] = state[STATE.position + k]! + sensors.position * positionError.values[k]!;
        signals.velocity[k] = state[STATE.velocity + k]! + sensors.velocity * velocityError.values[k]!;
      }
    },
    /** from the true Euler angles, rad */
    attitude(euler: Float64Array): void {
      for (let k = 0; k < 3; k++) {
        signals.attitudeMeasured[k] = euler[k]! + sensors.attitude * attitudeError.values[k]!;
      }
    },
  };
}
