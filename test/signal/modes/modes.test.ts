import { describe, expect, test } from "vitest";
import {
  ArgumentError,
  autoregression,
  autoregressionOrder,
  autoregressiveModes,
  growthRate,
  linearCongruential,
  matrixPencil,
  NotFiniteError,
  SignalTooShortError,
  toneEstimate,
} from "../../../src/signal/index.ts";
import reference from "../../reference/statistics.json" with { type: "json" };
import { coverageOf } from "../../studies/coverage.ts";
import { correlatedEnvelope, growingOscillation, noiseDriven, ringDown, steadyTone } from "../../studies/scenarios.ts";
import { expectClose, expectNear, noise, sine } from "../support.ts";

describe("intervals contain the truth (fixed parts of the studies in test/studies)", () => {
  // 200 trials: a true share of 95 % comes out above 88.5 % but for one time in ten thousand.
  test.each([
    ["ring-down at 10 dB", ringDown({ dampingRatio: 0.05, decibels: 10, count: 200 })],
    ["growing ring-up at 20 dB", ringDown({ dampingRatio: -0.02, decibels: 20, count: 200 })],
    ["noise-driven resonance, 20 s", noiseDriven({ dampingRatio: 0.1, count: 1000, method: "burg" })],
    ["correlated envelope", correlatedEnvelope({ tau: 0.1, duration: 10 })],
    ["envelope of a growing oscillation", growingOscillation({ decibels: 20, duration: 5 })],
    ["tone in coloured noise", steadyTone({ count: 500, phi: 0.8, amplitude: 1 })],
  ])("%s", (_, trial) => {
    for (const { covered, declined } of Object.values(coverageOf(trial, 200, 77))) {
      expect(declined).toBe(0);
      expect(covered).toBeGreaterThan(0.885);
    }
  });
});

describe("matrixPencil", () => {
  const decaying = Float64Array.from({ length: 200 }, (_, n) => 3 * Math.exp(-0.02 * n) * Math.cos(0.4 * n + 1));

  test("chooses two poles for one oscillation in noise and reports its amplitude and phase", () => {
    const noisy = linearCongruential(4, 200).map((u, n) => decaying[n]! + 0.05 * (u - 0.5));
    const { modes, order, residualDeviation } = matrixPencil(noisy, 10);
    expect(order).toBe(2);
    expect(modes[0]!.amplitude).toBeCloseTo(3, 1);
    expect(modes[0]!.phase).toBeCloseTo(1, 1);
    expectNear(residualDeviation, 0.05 / Math.sqrt(12), 0.15);
  });

  test("finds a plain decay as a mode of frequency 0", () => {
    const { modes } = matrixPencil(
      Float64Array.from({ length: 60 }, (_, n) => 2 * Math.exp(-0.1 * n)),
      10,
    );
    expect(modes).toHaveLength(1);
    expect(modes[0]!.frequency.value).toBe(0);
    expectNear(modes[0]!.growthRate.value, -1, 1e-9);
  });

  test("finds nothing in silence", () => {
    expect(matrixPencil(new Float64Array(50), 10)).toEqual({ modes: [], order: 0, residualDeviation: 0 });
  });

  test("leaves its input as it was, and gives the same answer again", () => {
    const copy = decaying.slice();
    const first = matrixPencil(decaying, 10);
    expect(decaying).toEqual(copy);
    expect(matrixPencil(decaying, 10)).toEqual(first);
  });

  test("refuses NaN, too few samples, a wrong rate and an order that the pencil cannot hold", () => {
    expect(() => matrixPencil(decaying.with(3, Number.NaN), 10)).toThrow(NotFiniteError);
    expect(() => matrixPencil(decaying.slice(0, 7), 10)).toThrow(SignalTooShortError);
    expect(() => matrixPencil(decaying, -1)).toThrow(ArgumentError);
    expect(() => matrixPencil(new Float64Array(50).fill(1), 10, { order: 4 })).toThrow(
      /order: needs an order whose poles/,
    );
    expect(() => matrixPencil(decaying, 10, { order: 80 })).toThrow(
      /order: needs a whole number of at least 1 and at most/,
    );
  });
});

describe("autoregression", () => {
  test("by Yule-Walker solves the same Toeplitz system as SciPy", () => {
    for (const [i, order] of [1, 2, 7].entries()) {
      expectClose(autoregression(noise(21, 41), order).coefficients, reference.yuleWalker[i]!, 1e-9);
    }
  });

  test("joins stretches without crossing gaps: two copies give the model of one", () => {
    const one = noise(3, 500);
    for (const method of ["yule-walker", "burg"] as const) {
      const single = autoregression(one, 3, { method });
      expectClose(autoregression([one, one], 3, { method }).coefficients, single.coefficients, 1e-12);
    }
  });

  test("by AIC gives white noise a low order", () => {
    expect(autoregressionOrder(noise(9, 1000), 12)).toBeLessThan(3);
  });

  test("finds no oscillation in a plain first-order process", () => {
    expect(autoregressiveModes(autoregression(noise(3, 500), 1), 10)).toEqual([]);
  });

  test("refuses a constant, a stretch no longer than the order, and NaN", () => {
    expect(() => autoregression(new Float64Array(20).fill(2), 2)).toThrow(/constant/);
    expect(() => autoregression([noise(1, 50), noise(1, 3)], 3)).toThrow(/needs at least 4 samples, got 3/);
    expect(() => autoregression([], 3)).toThrow(SignalTooShortError);
    expect(() => autoregression(Float64Array.of(1, 2, Number.NaN, 4), 1)).toThrow(NotFiniteError);
  });
});

describe("growthRate", () => {
  test("of an exact exponential is its rate", () => {
    const { value, standardError } = growthRate(
      Float64Array.from({ length: 100 }, (_, n) => 5 * Math.exp(-0.03 * n)),
      10,
    );
    expectNear(value, -0.3, 1e-9);
    expect(standardError).toBeLessThan(1e-9);
  });

  test("refuses an envelope that touches zero, and one that is too short", () => {
    expect(() => growthRate(new Float64Array(100), 10)).toThrow(/envelope\[0\]: needs a value above 0/);
    expect(() => growthRate(new Float64Array(10).fill(1), 10)).toThrow(SignalTooShortError);
  });
});

describe("toneEstimate", () => {
  test("finds a noise-free tone between bins", () => {
    const tone = toneEstimate(
      sine({ amplitude: 3, frequency: 12.34567, sampleRate: 100, count: 333, phase: 0.5 }),
      100,
    );
    expectNear(tone.frequency.value, 12.34567, 1e-9);
    expectNear(tone.amplitude.value, 3, 1e-9);
    expect(tone.phase).toBeCloseTo(0.5 - Math.PI / 2, 8);
  });

  test("looks only where it is told to", () => {
    const strong = sine({ amplitude: 5, frequency: 30, sampleRate: 100, count: 500 });
    const both = sine({ amplitude: 0.5, frequency: 8, sampleRate: 100, count: 500 }).map((x, n) => x + strong[n]!);
    expect(toneEstimate(both, 100).frequency.value).toBeCloseTo(30, 2);
    expect(toneEstimate(both, 100, { to: 20 }).frequency.value).toBeCloseTo(8, 1);
  });

  test("refuses a constant, too few samples and an empty range", () => {
    expect(() => toneEstimate(new Float64Array(64).fill(1), 10)).toThrow(ArgumentError);
    expect(() => toneEstimate(noise(1, 10), 10)).toThrow(SignalTooShortError);
    expect(() => toneEstimate(noise(1, 100), 10, { from: 4, to: 3 })).toThrow(/to: needs a number between 4 and 5/);
  });
});
