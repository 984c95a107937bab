import { describe, expect, test } from "vitest";
import { type Layout, layoutOf } from "../../../src/detect/balance/load-shares.ts";
import { residualPattern } from "../../../src/detect/balance/residual-pattern.ts";
import { matrix } from "../../../src/signal/index.ts";
import { BUILT_IN_AIRCRAFT } from "../../../src/simulate/index.ts";

const octo = layoutOf(BUILT_IN_AIRCRAFT.octo!);
const coaxial = layoutOf(BUILT_IN_AIRCRAFT["coaxial-octo"]!);

/** The residual of shares known to a thousandth of each. */
function residualOf(layout: Layout, change: (motor: number) => number) {
  const n = layout.motors;
  const raw = layout.healthy.map((share, i) => share * (1 + change(i)));
  const total = raw.reduce((sum, share) => sum + share, 0);
  const covariance = matrix(
    n,
    n,
    new Float64Array(n * n).map((_, at) => (at % (n + 1) === 0 ? (0.001 / n) ** 2 : 0)),
  );
  const shares = raw.map((share) => share / total);
  return residualPattern(layout, { shares, covariance, degreesOfFreedom: 10, demand: 0.4, seconds: 60 });
}

describe("residualPattern", () => {
  test("four motors leave nothing over", () => {
    expect(residualOf(layoutOf(BUILT_IN_AIRCRAFT["small-quad"]!), () => 0)).toBeNull();
  });

  test.each([
    ["thrust alone", () => 0],
    ["pitch", (i: number) => 0.2 * octo.x[i]!],
    ["roll", (i: number) => -0.2 * octo.y[i]!],
    ["yaw", (i: number) => 0.1 * octo.reaction[i]!],
  ])("%s of eight like motors is no residual", (_, change) => {
    const { size, motors } = residualOf(octo, change)!;
    expect(size.low).toBe(0);
    for (const { value } of motors) expect(value).toBeCloseTo(0, 10);
  });

  test("one motor 8 % up is an eighth of each pattern, and half of it is left over", () => {
    // Least squares onto thrust, roll, pitch and yaw of eight motors in a ring: 4 / 8 of the excess is kept.
    const { motors, size } = residualOf(octo, (i) => (i === 0 ? 0.08 : 0))!;
    expect(motors[0]!.value).toBeCloseTo(0.04 / 1.01, 3);
    // The residual of a unit vector has the square 1 - 4 / 8: rms over eight motors 0.08 sqrt(0.5 / 8).
    expect(size.value).toBeCloseTo((0.08 * Math.sqrt(0.5 / 8)) / 1.01, 3);
    expect(size.low!).toBeGreaterThan(0.01);
  });

  test("a coaxial aircraft whose weaker lower rotors carry less is balanced, and one lower rotor up is not", () => {
    expect(residualOf(coaxial, () => 0)!.size.value).toBeLessThan(0.001);
    expect(residualOf(coaxial, (i) => (i === 1 ? 0.1 : 0))!.size.low).toBeGreaterThan(0.01);
  });
});
