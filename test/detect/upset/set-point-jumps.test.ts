import { expect, test } from "vitest";
import { setPointJumps } from "../../../src/detect/upset/set-point-jumps.ts";
import { buildFlight } from "../../../src/flight/index.ts";
import { type SurveyOptions, surveyLog } from "../../support/survey-log.ts";

const jumpsOf = (asked: (t: number) => number, options: SurveyOptions = {}) =>
  setPointJumps(
    buildFlight(
      surveyLog({ "attitude.pitch.setpoint": { unit: "rad", of: asked } }, { rate: 50, duration: 30, ...options }),
      null,
    ),
    "pitch",
  );

test("a lone leap from one sample to the next is a jump, with its time and size", () => {
  const [jump, ...others] = jumpsOf((t) => 0.1 * Math.sin(t) + (t < 12 ? 0 : -0.6 * Math.exp(-(t - 12))));
  expect(others).toEqual([]);
  expect(jump!.at).toBeCloseTo(12, 2);
  expect(jump!.size).toBeCloseTo(-0.6, 2);
});

test("a doublet's largest step has others like it, and a step of 15 deg is a stick's", () => {
  const size = (20 * Math.PI) / 180;
  expect(jumpsOf((t) => (t < 10 ? 0 : t < 11.5 ? size : t < 13 ? -size : 0))).toEqual([]);
  expect(jumpsOf((t) => (t < 10 ? 0 : 0.26))).toEqual([]);
});

test("a busy stick in a coarse log jumps nowhere", () => {
  expect(jumpsOf((t) => 0.5 * Math.sin(4 * t) + 0.1 * Math.sin(9 * t), { rate: 5 })).toEqual([]);
});

test("a set point that changed while the log paused did not jump", () => {
  expect(jumpsOf((t) => (t < 12 ? 0 : 0.8), { gaps: [{ start: 11, end: 13 }] })).toEqual([]);
});
