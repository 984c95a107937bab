import { STATE } from "../physics/rigid-body.ts";
import { eulerAngles } from "./euler-angles.ts";

/** m/s and rad beyond which an arrival is a crash */
const HARD = { sinking: 4, leaning: 0.7 };

/** The ground under the aircraft. */
export interface Ground {
  isTouched: boolean;
  /** s at which the aircraft hit it hard, or null; the motors stop */
  crash: number | null;
  /** holds the aircraft level where it stands; called after every step */
  hold(state: Float64Array, time: number): void;
}

export function createGround(isTouched: boolean): Ground {
  const euler = new Float64Array(3);
  const ground: Ground = {
    isTouched,
    crash: null,
    hold(state, time) {
      ground.isTouched = state[STATE.position + 2]! >= 0;
      if (!ground.isTouched) return;
      eulerAngles(state, euler);
      const leaning = Math.max(Math.abs(euler[0]!), Math.abs(euler[1]!));
      const isHard = state[STATE.velocity + 2]! > HARD.sinking || leaning > HARD.leaning;
      if (isHard && ground.crash === null) ground.crash = time;
      state[STATE.position + 2] = 0;
      if (state[STATE.velocity + 2]! < 0) return;
      state.fill(0, STATE.velocity, STATE.velocity + 3);
      state.fill(0, STATE.rate, STATE.rate + 3);
      state[STATE.attitude] = Math.cos(euler[2]! / 2);
      state[STATE.attitude + 1] = 0;
      state[STATE.attitude + 2] = 0;
      state[STATE.attitude + 3] = Math.sin(euler[2]! / 2);
    },
  };
  return ground;
}
