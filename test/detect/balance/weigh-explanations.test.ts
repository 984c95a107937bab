import { describe, expect, test } from "vitest";
import { explanationsOf, type Shift } from "../../../src/detect/balance/imbalance-patterns.ts";
import { type Layout, layoutOf } from "../../../src/detect/balance/load-shares.ts";
import { BETWEEN_AIRCRAFT, BETWEEN_FLIGHTS, shiftOf, withTolerance } from "../../../src/detect/balance/shift-of.ts";
import { judge } from "../../../src/detect/balance/verdict.ts";
import { weighExplanations } from "../../../src/detect/balance/weigh-explanations.ts";
import { matrix } from "../../../src/signal/index.ts";
import { BUILT_IN_AIRCRAFT } from "../../../src/simulate/index.ts";

const quad = layoutOf(BUILT_IN_AIRCRAFT["small-quad"]!);

/** What is made of exact demands: shares known to a thousandth of each. */
function verdictOf(layout: Layout, demands: readonly number[], tolerance = BETWEEN_AIRCRAFT) {
  const total = demands.reduce((sum, demand) => sum + demand, 0);
  const shares = Float64Array.from(demands, (demand) => demand / total);
  const n = layout.motors;
  const covariance = matrix(
    n,
    n,
    new Float64Array(n * n).map((_, at) => (at % (n + 1) === 0 ? (0.001 / n) ** 2 : 0)),
  );
  const measured = shiftOf(layout, shares, covariance);
  return judge(
    weighExplanations(measured.shift, withTolerance(layout, measured.covariance, tolerance), explanationsOf(layout)),
  );
}

describe("explanations of a shift", () => {
  test("even demands are explained by nothing", () => {
    expect(verdictOf(quad, [1, 1, 1, 1]).isNone).toBe(true);
  });

  test.each([1, 2, 3, 4])("motor %d asked for a tenth more is one weak motor", (motor) => {
    const verdict = verdictOf(
      quad,
      [1, 2, 3, 4].map((other) => (other === motor ? 1 / 0.9 : 1)),
    );
    expect(verdict.pattern).toBe("single-motor");
    expect(verdict.motors).toEqual([motor]);
  });

  test("without a baseline a loss of 6 % cannot be told from a spin pair", () => {
    const verdict = verdictOf(quad, [1, 1, 1 / 0.94, 1]);
    expect([verdict.pattern, ...verdict.alternatives]).toEqual(expect.arrayContaining(["single-motor", "spin-pair"]));
  });

  test("against a baseline a loss of 5 % is told apart from everything else", () => {
    const verdict = verdictOf(quad, [1, 1, 1 / 0.95, 1], BETWEEN_FLIGHTS);
    expect(verdict).toMatchObject({ pattern: "single-motor", motors: [3], alternatives: [] });
    expect(verdict.confidence).toBeGreaterThan(0.9);
  });

  test("one diagonal 6 % up and the other down is a spin pair", () => {
    expect(verdictOf(quad, [1.06, 0.94, 1.06, 0.94])).toMatchObject({ pattern: "spin-pair", motors: [] });
  });

  test("front up and rear down without a spin bias is the centre of gravity, which front motors alike would look like", () => {
    const verdict = verdictOf(quad, [1.08, 1.08, 0.92, 0.92]);
    expect(verdict.pattern).toBe("centre-of-gravity");
    expect(verdict.alternatives).toContain("motor-group");
  });

  test("against a baseline an offset along an axis is the centre of gravity, on any layout", () => {
    for (const name of ["small-quad", "hexa", "octo", "coaxial-octo"]) {
      const layout = layoutOf(BUILT_IN_AIRCRAFT[name]!);
      const arm = Math.max(...layout.y);
      const demands = Array.from(layout.healthy, (_, i) => 1 + (0.08 * layout.y[i]!) / arm);
      expect(verdictOf(layout, demands, BETWEEN_FLIGHTS).pattern).toBe("centre-of-gravity");
    }
  });

  test("a motor that needs less command is not called weak", () => {
    const verdict = verdictOf(quad, [0.9, 1, 1, 1]);
    expect(verdict.motors).not.toContain(1);
  });

  test("two opposite weak motors of an octorotor that spin alike are several motors or a spin pair, not one", () => {
    const octo = layoutOf(BUILT_IN_AIRCRAFT.octo!);
    const demands = [1.3, 1, 1, 1, 1.3, 1, 1, 1];
    expect(verdictOf(octo, demands, BETWEEN_FLIGHTS).pattern).not.toBe("single-motor");
  });

  const hexa = layoutOf(BUILT_IN_AIRCRAFT.hexa!);
  const weakened = (layout: Layout, losses: Readonly<Record<number, number>>) =>
    Array.from(layout.healthy, (_, i) => 1 / (1 - (losses[i + 1] ?? 0)));

  test("two weak motors at the front of a quadrotor look like the centre of gravity, and both are said", () => {
    const verdict = verdictOf(quad, weakened(quad, { 1: 0.08, 2: 0.08 }), BETWEEN_FLIGHTS);
    expect([verdict.pattern, ...verdict.alternatives]).toEqual(
      expect.arrayContaining(["centre-of-gravity", "motor-group", "several-motors"]),
    );
  });

  test("like losses of both motors of one diagonal are a spin pair: all propellers of one kind", () => {
    const verdict = verdictOf(quad, weakened(quad, { 1: 0.08, 3: 0.08 }), BETWEEN_FLIGHTS);
    expect(verdict.pattern).toBe("spin-pair");
    expect(verdict.alternatives).not.toContain("single-motor");
    expect(verdict.alternatives).not.toContain("centre-of-gravity");
  });

  test("unequal losses of two neighbours are several motors, told from one motor and from a spin pair", () => {
    const verdict = verdictOf(quad, weakened(quad, { 1: 0.12, 2: 0.06 }), BETWEEN_FLIGHTS);
    expect(verdict).toMatchObject({ pattern: "several-motors", motors: [1, 2] });
    expect(verdict.alternatives).not.toContain("single-motor");
    expect(verdict.alternatives).not.toContain("spin-pair");
  });

  test("both rotors of one coaxial arm are a group, told from one rotor and from a spin pair", () => {
    const coaxial = layoutOf(BUILT_IN_AIRCRAFT["coaxial-octo"]!);
    const verdict = verdictOf(coaxial, weakened(coaxial, { 3: 0.12, 4: 0.12 }), BETWEEN_FLIGHTS);
    expect([verdict.pattern, ...verdict.alternatives]).toContain("motor-group");
    expect(verdict.alternatives).not.toContain("spin-pair");
    expect(verdict.pattern).not.toBe("single-motor");
  });

  test("of six motors a weak one is told from a centre of gravity and from a spin pair", () => {
    for (const motor of [1, 2, 3, 4, 5, 6]) {
      const verdict = verdictOf(hexa, weakened(hexa, { [motor]: 0.08 }), BETWEEN_FLIGHTS);
      expect(verdict).toMatchObject({ pattern: "single-motor", motors: [motor] });
      expect(verdict.alternatives).not.toContain("spin-pair");
      expect(verdict.alternatives).not.toContain("centre-of-gravity");
    }
  });

  const survey = layoutOf(BUILT_IN_AIRCRAFT["survey-quad"]!);
  /** Demands of a quadrotor for a shift, by the inverse of its effectiveness: each of three patterns to each motor. */
  const demandsFor = (forward: number, right: number, spin: number) =>
    [0, 1, 2, 3].map(
      (i) => 1 + Math.sign(survey.x[i]!) * forward + Math.sign(survey.y[i]!) * right + survey.reaction[i]! * spin,
    );

  test("a motor tilted by 2.6 degrees with a centre of gravity far forward is both, not two weak motors", () => {
    // 0.25 x 0.594 m x sin(2.6 deg) / 0.022 m = 0.306 of spin bias; 63 mm over a reach of 0.42 m
    const verdict = verdictOf(survey, demandsFor(0.15, 0.04, -0.306));
    expect(verdict).toMatchObject({ pattern: "spin-pair", besides: "centre-of-gravity", motors: [], alternatives: [] });
  });

  test("of a centre of gravity and a spin pair the one that moves more is named first", () => {
    expect(verdictOf(survey, demandsFor(0.25, 0.05, -0.1))).toMatchObject({
      pattern: "centre-of-gravity",
      besides: "spin-pair",
    });
  });

  test("a weak motor on an aircraft with a twisted one is named", () => {
    // A loss of 15 %: an eighth of the load towards motor 2, and what a tilt of two degrees makes of spin on top.
    const towards = (0.25 * 0.15) / 0.85;
    const verdict = verdictOf(survey, demandsFor(towards, towards, towards - 0.2), BETWEEN_FLIGHTS);
    expect(verdict).toMatchObject({ pattern: "single-motor", motors: [2], besides: "spin-pair" });
  });

  test("one cause that explains the load is not made two", () => {
    for (const [forward, right, spin] of [
      [0.15, 0.04, 0],
      [0, 0, 0.3],
      [0.05, 0.05, 0.05],
    ] as const) {
      expect(verdictOf(survey, demandsFor(forward, right, spin), BETWEEN_FLIGHTS).besides).toBeNull();
    }
  });

  test("the same twist tells more on long arms with little reaction torque", () => {
    const spreadOf = (layout: Layout) =>
      explanationsOf(layout).find(({ pattern, besides }) => pattern === "spin-pair" && besides === null)!.spread[0]!;
    // 0.25 x 0.594 m x sin(1.5 deg) / 0.022 m = 0.1767, and 0.25 x 0.212 m x sin(1.5 deg) / 0.016 m = 0.0867
    expect(spreadOf(survey)).toBeCloseTo(Math.hypot(0.06, 0.1767), 3);
    expect(spreadOf(quad)).toBeCloseTo(Math.hypot(0.06, 0.0867), 3);
  });

  test("probabilities add up to one", () => {
    const shift: Shift = [0.02, -0.01, 0.03];
    const weighed = weighExplanations(shift, Float64Array.of(1e-4, 0, 0, 0, 1e-4, 0, 0, 0, 1e-4), explanationsOf(quad));
    expect(weighed.reduce((sum, { probability }) => sum + probability, 0)).toBeCloseTo(1, 10);
  });
});
