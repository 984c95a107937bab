import { expect, test } from "vitest";
import { controlEffectiveness, leastThrusts, wrenchOf } from "../../src/aircraft/index.ts";
import { conditionNumber, pseudoInverse } from "../../src/signal/index.ts";
import { layout, xQuad } from "./x-quad.ts";

const quad = controlEffectiveness(xQuad());

test("the effectiveness of the worked X quadrotor has rows of ones, -y, +x and the spin's reaction", () => {
  const [a, c] = [0.15, 0.016];
  expect([...quad.matrix.data]).toEqual([1, 1, 1, 1, a, -a, -a, a, a, a, -a, -a, -c, c, -c, c]);
});

test("its inverse has the worked rows and its condition number is 62.5", () => {
  const inverse = pseudoInverse(quad.matrix);
  const [l, n] = [1 / 0.6, 1 / 0.064];
  const expected = [0.25, l, l, -n, 0.25, -l, l, n, 0.25, -l, -l, -n, 0.25, l, -l, n];
  for (const [k, value] of expected.entries()) expect(inverse.data[k]).toBeCloseTo(value, 10);
  expect(conditionNumber(quad.matrix)).toBeCloseTo(62.5, 8);
});

test("the worked wrench takes the worked thrusts, and the thrusts give it back", () => {
  const wrench = [14.70998, 0.1, -0.05, 0.02];
  const thrusts = leastThrusts(quad, wrench);
  const expected = [3.448328, 3.739995, 3.281662, 4.239995];
  for (const [i, value] of expected.entries()) expect(thrusts[i]).toBeCloseTo(value, 6);
  for (const [k, value] of wrenchOf(quad, thrusts).entries()) expect(value).toBeCloseTo(wrench[k]!, 10);
});

test("a centre of gravity off the middle is the thrust-weighted mean place of the motors", () => {
  // Weight 14.70998 N at (0.006, -0.004) m: roll moment -W dy, pitch moment +W dx about the middle.
  const thrusts = leastThrusts(quad, [14.70998, 14.70998 * 0.004, 14.70998 * 0.006, 0]);
  const expected = [3.922661, 3.726528, 3.432329, 3.628462];
  for (const [i, value] of expected.entries()) expect(thrusts[i]).toBeCloseTo(value, 6);
});

test("without a stated thrust the matrix is in shares of full thrust, and says so", () => {
  const unknown = controlEffectiveness(
    layout(
      [
        [0.1, -0.1, "cw"],
        [0.1, 0.1, "ccw"],
        [-0.1, 0, "cw"],
      ],
      { max: null, torqueRatio: null },
    ),
  );
  expect(unknown.isInNewtons).toBe(false);
  expect(unknown.isTorqueKnown).toBe(false);
  expect([...unknown.maxThrust]).toEqual([1, 1, 1]);
});
