import { describe, expect, test } from "vitest";
import {
  autocovariance,
  benjaminiHochberg,
  chiSquareCdf,
  chiSquareQuantile,
  effectiveSampleSize,
  holm,
  linearCongruential,
  meanInterval,
  medianAbsoluteDeviation,
  normalCdf,
  normalQuantile,
  quantile,
  quantiles,
  studentTCdf,
  studentTQuantile,
  theilSen,
  welchTTest,
} from "../../../src/signal/index.ts";
import { logGamma, trigamma } from "../../../src/signal/statistics/gamma.ts";
import reference from "../../reference/statistics.json" with { type: "json" };
import { expectClose, expectNear, noise } from "../support.ts";

const index41 = Float64Array.from({ length: 41 }, (_, i) => i);
const scattered = noise(22, 41).map((v, i) => 0.7 * i + 30 * v ** 3);

describe("agreement with SciPy (version in the reference file)", () => {
  test.each(reference.quantiles)("quantiles at p = $p with $dof degrees of freedom", ({ p, dof, ...expected }) => {
    expectNear(chiSquareQuantile(p, dof), expected.chiSquare);
    expectNear(studentTQuantile(p, dof), expected.studentT);
    expectNear(normalQuantile(p), expected.normal);
  });

  test.each(reference.tails)("probabilities at $x with $dof degrees of freedom", ({ x, dof, ...expected }) => {
    expectNear(chiSquareCdf(x, dof), expected.chiSquare);
    expectNear(studentTCdf(-x, dof), expected.studentT);
    expectNear(normalCdf(-x), expected.normal);
  });

  test("logGamma and trigamma", () => {
    for (const [x, expected] of reference.logGamma) expectNear(logGamma(x!), expected!, 1e-12);
    for (const [x, expected] of reference.trigamma) expectNear(trigamma(x!), expected!, 1e-12);
  });

  test("quantiles, median absolute deviation, autocovariance", () => {
    const values = noise(21, 41);
    expectClose(quantiles(values, [0, 0.1, 0.333, 0.5, 0.99, 1]), reference.sampleQuantiles, 1e-14);
    expectNear(medianAbsoluteDeviation(values), reference.mad);
    expectClose(autocovariance(values), reference.autocovariance, 1e-12);
  });

  test("theilSen with its interval, and welchTTest", () => {
    const line = theilSen(index41, scattered);
    const { slope, intercept, low, high } = reference.theilSen;
    expectClose([line.slope, line.intercept, line.low, line.high], [slope, intercept, low, high], 1e-12);
    const result = welchTTest(noise(21, 41), scattered.subarray(0, 17));
    expectNear(result.t, reference.welchTest.t);
    expectNear(result.pValue, reference.welchTest.p);
  });

  test("benjaminiHochberg", () => {
    expectClose(benjaminiHochberg(linearCongruential(23, 12).map((u) => u ** 3)), reference.benjaminiHochberg);
  });
});

test("holm multiplies the smallest p by their number, the next by one less, and never lets the order turn", () => {
  expectClose(holm(Float64Array.of(0.04, 0.01, 0.03)), [0.06, 0.03, 0.06], 1e-12);
});

describe("meanInterval", () => {
  test("answers not-enough-data below four replicates", () => {
    expect(meanInterval(Float64Array.of(1, 2, 3))).toEqual({ kind: "not-enough-data", replicates: 3, needed: 4 });
  });

  test("gives Student's interval from four on", () => {
    const answer = meanInterval(Float64Array.of(1, 2, 3, 4));
    if (answer.kind !== "interval") throw new Error("expected an interval");
    expect(answer.mean).toBe(2.5);
    expectNear(answer.high - answer.mean, 3.182446305284263 * Math.sqrt(5 / 12), 1e-12);
  });
});

test("effectiveSampleSize of white noise is near n, of a slow random walk a few", () => {
  expect(effectiveSampleSize(noise(5, 2000))).toBeGreaterThan(1500);
  let level = 0;
  expect(effectiveSampleSize(noise(5, 2000).map((u) => (level += u)))).toBeLessThan(20);
});

test("the statistics refuse what they cannot answer, naming the argument", () => {
  expect(() => quantile(new Float64Array(0), 0.5)).toThrow(/values: needs at least 1/);
  expect(() => quantile(Float64Array.of(1), 1.5)).toThrow(/probability/);
  expect(() => normalQuantile(0)).toThrow(/probability/);
  expect(() => chiSquareQuantile(0.5, -1)).toThrow(/degreesOfFreedom/);
  expect(() => theilSen(Float64Array.of(1, 1), Float64Array.of(1, 2))).toThrow(/x: needs at least two different/);
  expect(() => welchTTest(Float64Array.of(1), Float64Array.of(1, 2))).toThrow(/first/);
  expect(() => meanInterval(Float64Array.of(1, 2, 3, Number.NaN))).toThrow(/replicates/);
});
