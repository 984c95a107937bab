import { describe, expect, test } from "vitest";
import { centreMeasures } from "../../../src/detect/balance/centre-measures.ts";
import { explanationsOf, IN_THE_MIDDLE, type Shift } from "../../../src/detect/balance/imbalance-patterns.ts";
import { layoutOf } from "../../../src/detect/balance/load-shares.ts";
import {
  BETWEEN_AIRCRAFT,
  BETWEEN_FLIGHTS,
  shiftBetween,
  shiftOf,
  withTolerance,
} from "../../../src/detect/balance/shift-of.ts";
import { judge } from "../../../src/detect/balance/verdict.ts";
import { weighExplanations } from "../../../src/detect/balance/weigh-explanations.ts";
import { matrix } from "../../../src/signal/index.ts";
import { BUILT_IN_AIRCRAFT } from "../../../src/simulate/index.ts";

const quad = layoutOf(BUILT_IN_AIRCRAFT["small-quad"]!);

/** Shares of four motors whose load lies at a place, measured in half arms along an axis, with a spin bias. */
const thrustsAt = (forward: number, right: number, spinBias: number) =>
  [0, 1, 2, 3].map(
    (i) => (1 + forward * Math.sign(quad.x[i]!) + right * Math.sign(quad.y[i]!) + spinBias * quad.reaction[i]!) / 4,
  );

/** What a motor's demand becomes where the part `loss` of it makes no thrust. */
const weakened = (thrusts: readonly number[], motor: number, loss: number) =>
  thrusts.map((thrust, i) => (i + 1 === motor ? thrust / (1 - loss) : thrust));

/** Judges exact demands: shares known to a ten thousandth. */
function judged(demands: readonly number[], before: readonly number[] | null = null) {
  const sharesOf = (of: readonly number[]) => {
    const total = of.reduce((sum, demand) => sum + demand, 0);
    return Float64Array.from(of, (demand) => demand / total);
  };
  const covariance = matrix(
    4,
    4,
    new Float64Array(16).map((_, at) => (at % 5 === 0 ? 1e-10 : 0)),
  );
  const shares = sharesOf(demands);
  const now = shiftOf(quad, shares, covariance);
  const past = before === null ? null : shiftOf(quad, sharesOf(before), covariance);
  const measured = past === null ? now : shiftBetween(past, now);
  const moved = before === null ? null : shares.map((share, i) => share - sharesOf(before)[i]!);
  const whole = withTolerance(quad, measured.covariance, before === null ? BETWEEN_AIRCRAFT : BETWEEN_FLIGHTS, {
    moved: moved ?? undefined,
  });
  const centre: Shift = past?.shift ?? IN_THE_MIDDLE;
  const verdict = judge(weighExplanations(measured.shift, whole, explanationsOf(quad, centre)));
  return {
    verdict,
    ...centreMeasures({ layout: quad, shares, measured, freedom: 30, moved, before: centre }, verdict),
  };
}

describe("centreMeasures", () => {
  test("against a baseline whose load lay off the middle the loss of a motor is exact", () => {
    const before = thrustsAt(0.15, -0.1, 0.12);
    for (const motor of [1, 2, 3, 4]) {
      const { verdict, measures } = judged(weakened(before, motor, 0.2), before);
      expect(verdict).toMatchObject({ pattern: "single-motor", motors: [motor], besides: null });
      expect(measures.loss!.value).toBeCloseTo(0.2, 4);
      expect(measures.twist!.value).toBeCloseTo(0, 3);
    }
  });

  test("a weak motor by itself leaves no twist and no tilt", () => {
    const { verdict, measures, tilts } = judged(weakened(thrustsAt(0, 0, 0), 2, 0.1));
    expect(verdict).toMatchObject({ pattern: "single-motor", besides: null });
    expect(Math.abs(measures["spin-bias"]!.value)).toBeGreaterThan(0.02);
    expect(Math.abs(measures.twist!.value)).toBeLessThan(0.002);
    expect(measures.twist!.low! * measures.twist!.high!).toBeLessThan(0);
    expect(measures.tilt === undefined).toBe(!verdict.alternatives.includes("spin-pair"));
    expect(tilts.length > 0).toBe(measures.tilt !== undefined);
  });

  // 0.3 of motor 2 by itself moves the bias by a tenth its way: of the last two the sum is nearly nothing, or turned.
  test.each([0.08, -0.08, -0.07 * quad.reaction[1]!, -0.05 * quad.reaction[1]!])(
    "beside a weak motor a twist of %d keeps its size and sign, whatever the sum of both",
    (twist) => {
      const before = thrustsAt(0, 0, 0);
      const { verdict, measures } = judged(weakened(thrustsAt(0, 0, twist), 2, 0.3), before);
      expect(verdict).toMatchObject({ pattern: "single-motor", motors: [2], besides: "spin-pair" });
      // The weak motor's demand makes the shares of all others a tenth smaller.
      expect(Math.abs(measures.twist!.value - twist)).toBeLessThan(0.15 * Math.abs(twist));
      expect(measures.twist!.low).toBeLessThan(twist);
      expect(measures.twist!.high).toBeGreaterThan(twist);
      expect(measures.tilt).toBeDefined();
    },
  );

  test("a spin pair by itself is the whole spin bias, told once", () => {
    const { verdict, measures } = judged(thrustsAt(0, 0, 0.1));
    expect(verdict).toMatchObject({ pattern: "spin-pair", besides: null });
    expect(measures.twist).toBeUndefined();
    expect(measures.tilt).toBeDefined();
  });

  test("beside a centre of gravity, which makes no spin bias, a spin pair is the whole of it", () => {
    const { verdict, measures } = judged(thrustsAt(0.12, -0.05, 0.15));
    expect([verdict.pattern, verdict.besides].sort()).toEqual(["centre-of-gravity", "spin-pair"]);
    expect(measures["spin-bias"]!.value).toBeCloseTo(0.15, 6);
    expect(measures.twist).toBeUndefined();
    expect(measures.tilt).toBeDefined();
  });
});
