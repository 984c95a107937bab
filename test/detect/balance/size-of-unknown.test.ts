import { describe, expect, test } from "vitest";
import { withUnknowns } from "../../../src/detect/balance/covariance3.ts";
import type { Shift } from "../../../src/detect/balance/imbalance-patterns.ts";
import { layoutOf } from "../../../src/detect/balance/load-shares.ts";
import { sharedPlaces } from "../../../src/detect/balance/shared-places.ts";
import { BETWEEN_AIRCRAFT, withTolerance } from "../../../src/detect/balance/shift-of.ts";
import { sizeOfUnknown } from "../../../src/detect/balance/size-of-unknown.ts";
import { randomGenerator } from "../../../src/signal/index.ts";
import { BUILT_IN_AIRCRAFT } from "../../../src/simulate/index.ts";

const diagonal = (a: number, b: number, c: number) => Float64Array.of(a, 0, 0, 0, b, 0, 0, 0, c);

describe("sizeOfUnknown", () => {
  const direction: Shift = [0.25, 0.25, 0.25];
  const alone = { directions: [direction], spread: [0.15] };

  test("without scatter is the mean over the noise, with Student's t for its half", () => {
    const noise = diagonal(1e-4, 1e-4, 1e-4);
    const { value, half } = sizeOfUnknown(alone, 0, [0.02, 0.03, 0.04], noise, noise, 8);
    // Three looks at 0.25 x size of a hundredth each: their mean, its deviation 0.01 / (0.25 sqrt 3), t(8) = 2.306.
    expect(value).toBeCloseTo(0.12, 10);
    expect(half).toBeCloseTo((2.306 * 0.01) / (0.25 * Math.sqrt(3)), 4);
  });

  test("an axis that another unknown moves as it likes says next to nothing", () => {
    const noise = diagonal(1e-6, 1e-6, 1e-6);
    const both = { directions: [direction, [0, 0, 1] as Shift], spread: [0.15, 100] };
    const { value } = sizeOfUnknown(both, 0, [0.05, 0.05, -0.2], noise, noise, 30);
    expect(value).toBeCloseTo(0.2, 6);
    expect(sizeOfUnknown(both, 1, [0.05, 0.05, -0.2], noise, noise, 30).value).toBeCloseTo(-0.25, 3);
  });

  test("scatter widens the interval as a variance that is known, not as one of few blocks", () => {
    const measured = diagonal(1e-8, 1e-8, 1e-8);
    const scattered = diagonal(1e-4, 1e-4, 1e-4);
    const { half } = sizeOfUnknown(alone, 0, [0.02, 0.02, 0.02], measured, scattered, 4);
    expect(half).toBeCloseTo((1.96 * 0.01) / (0.25 * Math.sqrt(3)), 4);
  });

  test("its 95 % interval holds 93 to 97 % of 2000 losses beside a twist on aircraft that differ as supposed", () => {
    const layout = layoutOf(BUILT_IN_AIRCRAFT["survey-quad"]!);
    const random = randomGenerator(7);
    const measured = diagonal(4e-6, 4e-6, 4e-6);
    const noise = withTolerance(layout, measured, BETWEEN_AIRCRAFT, { except: 2 });
    const both = { directions: [direction, [0, 0, 1] as Shift], spread: [0.15, 0.2] };
    // A draw of the noise by its Cholesky factor.
    const [a, b, c, d, e, f] = factorOf(noise);
    let held = 0;
    for (let k = 0; k < 2000; k++) {
      const [p, q, r] = random.gaussians(3) as unknown as [number, number, number];
      const [loss, twist] = [0.2 * random.uniform(), 0.2 * random.gaussian()];
      const shift: Shift = [
        0.25 * loss + a * p,
        0.25 * loss + b * p + c * q,
        0.25 * loss + twist + d * p + e * q + f * r,
      ];
      const { value, half } = sizeOfUnknown(both, 0, shift, measured, noise, 12);
      if (Math.abs(value - loss) <= half) held++;
    }
    expect(held / 2000).toBeGreaterThan(0.93);
    expect(held / 2000).toBeLessThan(0.97);
  });
});

/** Lower triangle of the Cholesky factor, row after row. */
function factorOf(m: Float64Array): [number, number, number, number, number, number] {
  const a = Math.sqrt(m[0]!);
  const b = m[3]! / a;
  const c = Math.sqrt(m[4]! - b * b);
  const d = m[6]! / a;
  const e = (m[7]! - d * b) / c;
  return [a, b, c, d, e, Math.sqrt(m[8]! - d * d - e * e)];
}

describe("scatter of loads in order", () => {
  const layout = layoutOf(BUILT_IN_AIRCRAFT["survey-quad"]!);
  const variance = (m: Float64Array, v: Shift) =>
    v.reduce((sum, x, i) => sum + v.reduce((inner, y, j) => inner + x * y * m[3 * i + j]!, 0), 0);

  test("leaves out the motor whose size is asked for", () => {
    const none = withUnknowns(new Float64Array(9), []);
    const all = withTolerance(layout, none, BETWEEN_AIRCRAFT);
    const others = withTolerance(layout, none, BETWEEN_AIRCRAFT, { except: 2 });
    // Towards motor 2 (front right, counter-clockwise) itself: (0.015 / 4)^2 along (1, 1, reaction), three times squared.
    const own: Shift = [1, 1, layout.reaction[1]!];
    expect(variance(all, own) - variance(others, own)).toBeCloseTo(9 * (0.015 / 4) ** 2, 10);
  });

  test("grows where a motor that differs from the others carries another share than before", () => {
    const still = withTolerance(layout, new Float64Array(9), BETWEEN_AIRCRAFT, { moved: new Float64Array(4) });
    const moved = withTolerance(layout, new Float64Array(9), BETWEEN_AIRCRAFT, {
      moved: Float64Array.of(0.1, 0, 0, 0),
    });
    expect(moved[0]! - still[0]!).toBeCloseTo((0.1 * 0.015) ** 2, 10);
  });
});

test("motors of a coaxial arm share a place, those of a flat aircraft do not", () => {
  expect(sharedPlaces(layoutOf(BUILT_IN_AIRCRAFT["coaxial-octo"]!))).toEqual([
    [1, 2],
    [3, 4],
    [5, 6],
    [7, 8],
  ]);
  expect(sharedPlaces(layoutOf(BUILT_IN_AIRCRAFT.octo!))).toEqual([]);
});
