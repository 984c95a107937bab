import { expect, test } from "vitest";
import { knockedSteps } from "../../../src/detect/thrust-loss/find-thrust-losses.ts";
import type { Candidate } from "../../../src/detect/thrust-loss/steps-in.ts";

const step = (cell: number, low = 0.2): Candidate => ({
  motor: 2,
  cell,
  at: cell / 10,
  deficit: 0.3,
  low,
  high: 0.4,
  explained: 0.95,
  isYawKnown: false,
  standingOut: 9,
  asked: 10,
  error: 0.1,
});
const cells = (whole: Candidate[], others: Candidate[], unknocked: number[] = []) =>
  knockedSteps(whole, others, ({ cell, at }) => (unknocked.includes(cell) ? null : at)).map(({ cell }) => cell);

test("a step seen without yaw counts apart from those of the whole pattern, and where it is no chance", () => {
  expect(cells([step(100)], [step(120)])).toEqual([100]);
  expect(cells([step(100)], [step(60), step(140)])).toEqual([60, 100, 140]);
  expect(cells([], [step(120), step(200, 0)])).toEqual([120]);
});

test("a step of the whole pattern that no knock began hides no knocked step beside it", () => {
  expect(cells([step(100)], [step(120)], [100])).toEqual([120]);
  expect(cells([step(100)], [step(120)], [120])).toEqual([100]);
  expect(cells([step(100)], [step(120)], [100, 120])).toEqual([]);
});
