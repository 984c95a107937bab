// Statistics against published examples, R and certified data.
import { describe, expect, test } from "vitest";
import {
  autocorrelation,
  changePoint,
  cusum,
  effectiveSampleSizeOf,
  leastSquares,
  linearCongruential,
  matrixOfColumns,
  mean,
  medianAbsoluteDeviation,
  movingBlockBootstrap,
  powerSpectralDensity,
  randomGenerator,
  ratioInterval,
  spectralPeak,
  standardDeviation,
  stationaryBootstrap,
  theilSen,
  welchTTest,
} from "../../src/signal/index.ts";
import { expectClose, expectNear } from "../signal/support.ts";
import { beamDeflections, enso, nile, norrisX, norrisY } from "./public-series.ts";

test("the linear congruential generator gives the same bits everywhere", () => {
  const first = [0.23645552527159452, 0.3692706737201661, 0.5042420323006809, 0.7048832636792213, 0.05054362863302231];
  expect([...linearCongruential(1, 5)]).toEqual(first);
});

describe("Welch's t test (Rosetta Code; R)", () => {
  test("two samples of fifteen", () => {
    const a = [27.5, 21.0, 19.0, 23.6, 17.0, 17.9, 16.9, 20.1, 21.9, 22.6, 23.1, 19.6, 19.0, 21.7, 21.4];
    const b = [27.1, 22.0, 20.8, 23.4, 23.4, 23.5, 25.8, 22.0, 24.8, 20.2, 21.9, 22.1, 22.9, 20.5, 24.4];
    const result = welchTTest(Float64Array.from(a), Float64Array.from(b));
    expectNear(result.t, -2.455356398286, 1e-9);
    expectNear(result.degreesOfFreedom, 24.988529290231, 1e-9);
    expectNear(result.pValue, 0.021378001462867, 1e-9);
    expectClose([result.low, result.high], [-3.98409627, -0.34923707], 1e-8);
  });

  test("small samples", () => {
    const first = welchTTest(
      Float64Array.of(30.02, 29.99, 30.11, 29.97, 30.01, 29.99),
      Float64Array.of(29.89, 29.93, 29.72, 29.98, 30.02, 29.98),
    );
    expectNear(first.t, 1.959006, 1e-6);
    expectNear(first.pValue, 0.0907733243, 1e-8);
    const second = welchTTest(Float64Array.of(3, 4, 1, 2.1), Float64Array.of(490.2, 340, 433.9));
    expectNear(second.t, -9.5594977, 1e-7);
    expectNear(second.pValue, 0.0107515611, 1e-8);
  });

  test("R's sleep", () => {
    const result = welchTTest(
      Float64Array.of(0.7, -1.6, -0.2, -1.2, -0.1, 3.4, 3.7, 0.8, 0.0, 2.0),
      Float64Array.of(1.9, 0.8, 1.1, 0.1, -0.1, 4.4, 5.5, 1.6, 4.6, 3.4),
    );
    expectNear(result.t, -1.8608135, 1e-7);
    expectNear(result.degreesOfFreedom, 17.776474, 1e-7);
    expectNear(result.pValue, 0.07939414, 1e-7);
  });
});

test("effective sample size of a first-order autoregression (Bayley & Hammersley 1946)", () => {
  for (const [count, phi, limit, exact] of [
    [1000, 0.9, 52.632, 53.135],
    [1000, 0.5, 333.333, 333.778],
    [500, 0.95, 12.821, 13.34],
  ] as const) {
    expectNear((count * (1 - phi)) / (1 + phi), limit, 1e-4);
    const rho = Float64Array.from({ length: count }, (_, k) => phi ** k);
    expectNear(effectiveSampleSizeOf(count, rho), exact, 1e-4);
  }
});

test("block bootstraps hold up under correlation where single values do not (design of Kunsch; Politis & Romano)", () => {
  const random = randomGenerator(5);
  const covered = { single: 0, moving: 0, stationary: 0 };
  const trials = 200;
  for (let trial = 0; trial < trials; trial++) {
    let level = random.gaussian() / Math.sqrt(0.75);
    const values = Float64Array.from({ length: 400 }, () => {
      level = 0.5 * level + random.gaussian();
      return level;
    });
    const options = { resamples: 200, seed: trial };
    const holds = ({ low, high }: { low: number; high: number }) => (low < 0 && high > 0 ? 1 : 0);
    covered.single += holds(movingBlockBootstrap(values, mean, { ...options, blockLength: 1 }));
    covered.moving += holds(movingBlockBootstrap(values, mean, { ...options, blockLength: 20 }));
    covered.stationary += holds(stationaryBootstrap(values, mean, { ...options, blockLength: 20 }));
  }
  expect(covered.single / trials).toBeLessThan(0.8);
  for (const share of [covered.moving / trials, covered.stationary / trials]) {
    expect(share).toBeGreaterThan(0.84);
    expect(share).toBeLessThan(0.97);
  }
});

test("ratio of two mean powers (Fieller 1954)", () => {
  const { ratio, low, high } = ratioInterval({ value: 95, standardError: 2 }, { value: 100, standardError: 2 });
  expect(ratio).toBe(0.95);
  expectNear(low, 0.897333, 1e-6);
  expectNear(high, 1.005591, 1e-6);
});

test("median absolute deviation (R's mad)", () => {
  expectNear(medianAbsoluteDeviation(Float64Array.of(1, 2, 3, 4, 100)), 1.4826, 1e-5);
});

test("Theil-Sen passes by two wild points that bend least squares (Sen 1968)", () => {
  const x = Float64Array.from({ length: 10 }, (_, i) => i);
  const y = x.map((value) => 2 * value + 1);
  y[3] = 40;
  y[8] = -30;
  const { slope, intercept } = theilSen(x, y);
  expect([slope, intercept]).toEqual([2, 1]);
  const { coefficients } = leastSquares(matrixOfColumns([new Float64Array(10).fill(1), x]), y);
  expectClose(coefficients, [11.272727, -0.593939], 1e-6);
});

describe("cumulative sums (Page 1954; Montgomery & Runger, table of Lucas & Crosier)", () => {
  test("a unit step at sample 20 passes 4 at sample 28 and 5 at sample 30", () => {
    const step = Float64Array.from({ length: 60 }, (_, i) => (i < 20 ? 0 : 1));
    expect(cusum(step, { threshold: 4 }).alarm).toBe(28);
    expect(cusum(step, { threshold: 5 }).alarm).toBe(30);
    expect(cusum(step.map((value) => -value)).alarm).toBe(30);
  });

  test.each([
    [4, 1, 8.38],
    [4, 2, 3.34],
    [5, 1, 10.4],
    [5, 0.5, 38],
  ])("with threshold %d a shift of %d is found after %d values on average", (threshold, shift, expected) => {
    const random = randomGenerator(21);
    const lengths = Array.from({ length: 1500 }, () => {
      const { alarm } = cusum(
        random.gaussians(400).map((value) => value + shift),
        { threshold },
      );
      return alarm! + 1;
    });
    expect(Math.abs(mean(lengths) - expected)).toBeLessThan((4 * standardDeviation(lengths)) / Math.sqrt(1500));
  });
});

test("the Nile falls after 1898 (Cobb 1978; R's strucchange)", () => {
  const found = changePoint(nile);
  expect(found.index).toBe(28);
  expect(found.before).toBe(1097.75);
  expectNear(found.after, 849.972222, 1e-8);
  expect(found.pValue).toBeLessThan(1e-4);
  // Bai's interval, as strucchange has it: breaks after 25 to 32.
  expect(found.low).toBeGreaterThanOrEqual(23);
  expect(found.high).toBeLessThanOrEqual(34);
  const { t, degreesOfFreedom, pValue } = welchTTest(nile.slice(0, 28), nile.slice(28));
  expectNear(t, 8.41452, 1e-6);
  expectNear(degreesOfFreedom, 45.9906, 1e-5);
  expectNear(pValue, 7.31e-11, 2e-3);
});

test("beam deflections: certified mean, deviation and autocorrelation (NIST StRD Lew)", () => {
  expectNear(mean(beamDeflections), -177.435, 1e-12);
  expectNear(standardDeviation(beamDeflections), 277.332168044316, 1e-12);
  expectNear(autocorrelation(beamDeflections)[1]!, -0.307304800605679, 1e-12);
  const { frequency, density } = powerSpectralDensity(beamDeflections, 1, {
    segmentLength: 200,
    window: "rectangular",
  });
  expect(Math.abs(spectralPeak(frequency, density)!.frequency - 0.3)).toBeLessThan(0.005);
});

test("Norris: certified straight line with its standard errors (NIST StRD)", () => {
  const design = matrixOfColumns([norrisX.map(() => 1), norrisX]);
  const { coefficients, covariance, residualVariance } = leastSquares(design, norrisY);
  expectNear(coefficients[0]!, -0.262323073774029, 1e-10);
  expectNear(coefficients[1]!, 1.00211681802045, 1e-12);
  expectNear(Math.sqrt(covariance.data[0]!), 0.232818234301152, 1e-10);
  expectNear(Math.sqrt(covariance.data[3]!), 0.000429796848199937, 1e-10);
  expectNear(residualVariance, 0.782864662630069, 1e-10);
});

test("ENSO: with the certified periods the linear fit has the certified coefficients (NIST StRD)", () => {
  const time = enso.map((_, i) => i + 1);
  const wave = (period: number) => {
    const angle = time.map((t) => (2 * Math.PI * t) / period);
    return [angle.map(Math.cos), angle.map(Math.sin)];
  };
  const columns = [time.map(() => 1), ...[12, 44.3110887, 26.88761444].flatMap(wave)];
  const { coefficients, residualVariance, degreesOfFreedom } = leastSquares(matrixOfColumns(columns), enso);
  const certified = [
    10.510749193, 3.0762128085, 0.53280138227, -1.6231428586, 0.52554493756, 0.21232288488, 1.4966870418,
  ];
  expectClose(coefficients, certified, 1e-8);
  expectNear(residualVariance * degreesOfFreedom, 788.53978668, 1e-9);
});

test("ENSO: the strongest period is a year", () => {
  const { frequency, density } = powerSpectralDensity(enso, 1, { segmentLength: 168, window: "rectangular" });
  const order = [...density.keys()].sort((a, b) => density[b]! - density[a]!);
  expect(order.slice(0, 3).map((k) => Math.round(1 / frequency[k]!))).toEqual([12, 42, 28]);
});
