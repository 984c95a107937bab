import { expect, test } from "vitest";
import { oscillation } from "../../../src/detect/index.ts";
import { buildFlight } from "../../../src/flight/index.ts";
import { randomGenerator } from "../../../src/signal/index.ts";
import { surveyLog } from "../../support/survey-log.ts";

const RATE = 100;
const DURATION = 60;

/** A second-order attitude loop (1.3 Hz) that follows a set point, in noise, and what is found of it. */
function answerOf(damping: number, asked: (t: number) => number) {
  const omega = 2 * Math.PI * 1.3;
  const random = randomGenerator(3);
  const count = DURATION * RATE + 1;
  const [angle, rate, shown] = [new Float64Array(count), new Float64Array(count), new Float64Array(count)];
  const fine = 10;
  let [x, v] = [0, 0];
  for (let n = 0; n < count; n++) {
    angle[n] = x;
    rate[n] = v;
    shown[n] = v + 0.01 * random.gaussian();
    for (let k = 0; k < fine; k++) {
      v += (omega * omega * (asked(n / RATE) - x) - 2 * damping * omega * v) / (RATE * fine);
      x += v / (RATE * fine);
    }
  }
  const at = (values: Float64Array) => (t: number) => values[Math.round(t * RATE)]!;
  const log = surveyLog(
    {
      "rate.roll.measured": { unit: "rad/s", of: at(shown) },
      "attitude.roll.measured": { unit: "rad", of: at(angle) },
      "attitude.roll.setpoint": { unit: "rad", of: asked },
    },
    { rate: RATE, duration: DURATION },
  );
  return oscillation.detect(buildFlight(log, null));
}

/** To and fro by 0.3 rad, every `seconds` from 30 s on, so many times. */
const steps = (seconds: number, times: number) => (t: number) => {
  const step = Math.floor((t - 30) / seconds);
  return step < 0 || step >= times ? 0 : step % 2 === 0 ? 0.3 : -0.3;
};

/** To and fro by 0.3 rad at uneven times, as a hand does; parts end at these times after 30 s. */
const uneven = (ends: readonly number[]) => (t: number) => {
  const part = t < 30 ? -1 : ends.findIndex((end) => t - 30 < end);
  return part === -1 ? 0 : part % 2 === 0 ? 0.3 : -0.3;
};

test("a damped loop's answers to steps in a row are no oscillation", () => {
  // Each of these is found as one, at 1.8 to 3 Hz, when the set point is not looked at.
  expect(answerOf(0.45, uneven([0.4, 0.88, 1.2, 1.64, 2.12]))).toEqual([]);
  expect(answerOf(0.45, uneven([0.6, 1.32, 1.8, 2.46, 3.18]))).toEqual([]);
  expect(answerOf(0.45, uneven([0.9, 1.71, 2.79, 3.6]))).toEqual([]);
});

test("a loop that rings on after a single step is one", () => {
  const [found] = answerOf(0.02, steps(100, 1));
  expect(found!.measures.frequency!.value).toBeCloseTo(1.3, 1);
});

test("a loop that rings between steps that come too seldom for it is one", () => {
  const [found] = answerOf(0.02, steps(6, 4));
  expect(found!.measures.frequency!.value).toBeCloseTo(1.3, 1);
});

test("a wave on the set point has no steps and is told as commanded", () => {
  const [found] = answerOf(0.7, (t) => (t > 30 && t < 45 ? 0.2 * Math.sin(2 * Math.PI * 0.5 * t) : 0));
  expect(found?.driver).toBe("commanded");
});
