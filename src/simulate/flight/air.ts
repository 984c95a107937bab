import { drydenGusts } from "../physics/dryden.ts";
import { noiseStream } from "../physics/noise-stream.ts";
import { STATE, type Surroundings } from "../physics/rigid-body.ts";
import type { Setup } from "../scenario/setup.ts";
import { STREAM } from "./streams.ts";

/** rad/s, bandwidth of the unsteady flow through the rotors */
const UNREST_BANDWIDTH = 18;

/** Wind, gusts and the unrest of the rotors' own flow, written into the surroundings of the body. */
export interface Air {
  /** fits the gusts to speed and height; now and then */
  tune(state: Float64Array, wind20: number): void;
  /** renews wind and pushes at every step; `heading` in rad, `wind20` in kt */
  step(heading: number, wind20: number): void;
}

export function createAir({ scenario, unrest: size }: Setup, around: Surroundings): Air {
  const { air, seed, step: dt } = scenario;
  const gusts = drydenGusts(dt, seed, STREAM.gusts);
  const noise = noiseStream(seed, STREAM.unrest);
  const from = (air.wind.from * Math.PI) / 180;
  const north = -air.wind.speed * Math.cos(from);
  const east = -air.wind.speed * Math.sin(from);
  const unrest = new Float64Array(3);
  const keep = Math.exp(-UNREST_BANDWIDTH * dt);
  const drive = Math.sqrt(1 - keep * keep);
  const { wind, push } = around;
  return {
    tune(state, wind20) {
      const speed = Math.hypot(
        state[STATE.velocity]! - north,
        state[STATE.velocity + 1]! - east,
        state[STATE.velocity + 2]!,
      );
      gusts.tune(speed, -state[STATE.position + 2]!, wind20);
    },
    step(heading, wind20) {
      gusts.step();
      const cos = Math.cos(heading);
      const sin = Math.sin(heading);
      const { velocity } = gusts;
      wind[0] = north + cos * velocity[0]! - sin * velocity[1]!;
      wind[1] = east + sin * velocity[0]! + cos * velocity[1]!;
      wind[2] = velocity[2]!;
      push.fill(0);
      // Gusts make the flow rougher; yaw, which rotor drag alone moves, feels little of it.
      const rough = size * (1 + wind20 / 15);
      for (let k = 0; k < 3; k++) {
        unrest[k] = keep * unrest[k]! + drive * noise.gaussian();
        push[3 + k] = rough * unrest[k]! * (k === 2 ? 0.3 : 1);
      }
    },
  };
}
