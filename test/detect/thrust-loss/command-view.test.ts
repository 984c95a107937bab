import { expect, test } from "vitest";
import { type Aircraft, controlEffectiveness, type Motor, WRENCH } from "../../../src/aircraft/index.ts";
import type { MotorThrusts } from "../../../src/detect/motor-thrusts.ts";
import { wholeView, withoutYaw } from "../../../src/detect/thrust-loss/command-view.ts";
import { wanderOf } from "../../../src/detect/thrust-loss/wander.ts";
import { randomGenerator } from "../../../src/signal/index.ts";
import { BUILT_IN_AIRCRAFT } from "../../../src/simulate/index.ts";

/** A minute of commands that wander, for an aircraft of which nothing else counts here. */
function wandering(motors: readonly Motor[]): MotorThrusts {
  const aircraft: Aircraft = { ...BUILT_IN_AIRCRAFT["small-quad"]!, motors };
  const random = randomGenerator(4);
  const time = Float64Array.from({ length: 600 }, (_, k) => k * 0.1);
  const thrusts = motors.map(() => time.map(() => 4 + random.gaussian()));
  const total = time.map((_, k) => thrusts.reduce((sum, one) => sum + one[k]!, 0));
  const effectiveness = controlEffectiveness(aircraft);
  return {
    effectiveness,
    ranges: [],
    time,
    since: time,
    thrusts,
    total,
    stretches: [{ from: 0, to: 600 }],
    interval: 0.1,
  };
}

const motor = (x: number, y: number, spin: Motor["spin"]): Motor => ({ x, y, spin, label: "", maxThrust: null });
const FOUR = BUILT_IN_AIRCRAFT["small-quad"]!.motors;
const THREE = [motor(0.2, 0.2, "cw"), motor(0.2, -0.2, "ccw"), motor(-0.3, 0, "cw")];

test("what turns the nose is taken out: what is left of the commands turns it no more", () => {
  const motors = wandering(FOUR);
  const { matrix: b } = motors.effectiveness;
  const view = withoutYaw(motors, wholeView(motors, 0, 600))!;
  for (let cell = 0; cell < view.count; cell++) {
    const yaw = view.thrusts.reduce((sum, one, i) => sum + b.data[WRENCH.yaw * b.columns + i]! * one[cell]!, 0);
    expect(Math.abs(yaw)).toBeLessThan(1e-9);
  }
});

test.each([
  ["three motors", THREE],
  ["four that spin alike", FOUR.map((one): Motor => ({ ...one, spin: "cw" }))],
])("%s cannot turn the nose without lift, roll or pitch: there is nothing to take out", (_, motors) => {
  const thrusts = wandering(motors);
  expect(withoutYaw(thrusts, wholeView(thrusts, 0, 600))).toBeNull();
});

test("the wander of commands has three parts once yaw is taken out, four with it", () => {
  const motors = wandering(FOUR);
  const whole = wholeView(motors, 0, 600);
  const [four, three] = [whole, withoutYaw(motors, whole)!].map((view) => wanderOf(view, [])!.degreesOfFreedom);
  expect(three! / four!).toBe(3 / 4);
});
