// Closed forms, textbook values and benchmark signals of damping and modal estimation.
import { describe, expect, test } from "vitest";
import {
  analyticSignal,
  autoregression,
  autoregressionOrder,
  autoregressiveModes,
  cyclesToHalf,
  dampingRatioOf,
  growthRate,
  growthRateOf,
  linearCongruential,
  logarithmicDecrement,
  logarithmicDecrementOfPeaks,
  magnitude,
  matrixPencil,
  randomGenerator,
  standardDeviation,
  timeToFactor,
} from "../../src/signal/index.ts";
import { expectNear } from "../signal/support.ts";
import { beamDeflections, lh, sunspots1770to1869 } from "./public-series.ts";

/** A sum of A e^(sigma t) cos(2 pi f t + phase). */
function ringing(count: number, rate: number, terms: { a: number; sigma: number; f: number; phase?: number }[]) {
  return Float64Array.from({ length: count }, (_, n) =>
    terms.reduce(
      (sum, { a, sigma, f, phase = 0 }) =>
        sum + a * Math.exp((sigma * n) / rate) * Math.cos((2 * Math.PI * f * n) / rate + phase),
      0,
    ),
  );
}

const twoModes = ringing(100, 100, [
  { a: 1, sigma: -0.5, f: 3 },
  { a: 0.6, sigma: -0.2, f: 7.5, phase: Math.PI / 4 },
]);

describe("logarithmic decrement (Rao, Mechanical Vibrations, section 2.6)", () => {
  test.each([
    [8, 2, 3, 0.462098, 0.0733471, 6.8169],
    [1, 0.5, 1, Math.LN2, 0.1096526, 4.55985],
    [10, 6.5, 1, 0.430783, 0.0684007, 7.30987],
    [100, 13, 99, 0.0206083, 0.00327989, 152.444],
  ])("a peak of %d falling to %d in %d cycles", (first, last, cycles, decrement, dampingRatio, quality) => {
    const answer = logarithmicDecrement(first, last, cycles);
    expectNear(answer.decrement, decrement, 1e-5);
    expectNear(answer.dampingRatio, dampingRatio, 1e-5);
    expectNear(answer.qualityFactor, quality, 1e-4);
  });

  test("peaks in exact geometric fall give their decrement with next to no uncertainty", () => {
    const answer = logarithmicDecrementOfPeaks(Float64Array.from({ length: 8 }, (_, k) => 5 * 0.8 ** k));
    expectNear(answer.decrement, -Math.log(0.8), 1e-12);
    expect(answer.interval.standardError).toBeLessThan(1e-12);
    expect(() => logarithmicDecrementOfPeaks(Float64Array.of(1, 0, 1))).toThrow(/peaks\[1\]/);
  });
});

describe("identities of damping and growth", () => {
  test.each([
    [0.01, 11.0312],
    [0.02, 5.5148],
    [0.05, 2.2036],
    [0.1, 1.0976],
    [0.2, 0.5404],
    [0.3, 0.3508],
    [-0.05, 2.2036],
  ])("a damping ratio of %d takes %d cycles to half or double (usage of MIL-F-8785C)", (ratio, cycles) => {
    expectNear(cyclesToHalf(ratio), cycles, 1e-4);
  });

  test("4 Hz at a damping ratio of -0.05 grows by 1.258 1/s and doubles in 0.551 s", () => {
    const rate = growthRateOf(-0.05, 4);
    expectNear(rate, 1.258211, 1e-6);
    expectNear(dampingRatioOf(rate, 4), -0.05, 1e-12);
    expectNear(timeToFactor(rate, 2), 0.550899, 1e-6);
    expectNear(Math.exp(rate / 4), 1.369647, 1e-6);
    expectNear(timeToFactor(0.7, 2), 0.99021, 1e-6);
    expectNear(timeToFactor(0.7, 10), 3.289407, 1e-6);
    expectNear(timeToFactor(0.8, 0.5 / 0.01), 4.890029, 1e-6);
    expect(() => timeToFactor(-0.8, 2)).toThrow(/decays/);
  });
});

describe("matrix pencil", () => {
  test.each([{ refine: false }, { refine: true }])(
    "recovers two noise-free modes (Hua & Sarkar 1990), %o",
    (options) => {
      const { modes, order } = matrixPencil(twoModes, 100, options);
      expect(order).toBe(4);
      const [first, second] = modes.toSorted((a, b) => a.frequency.value - b.frequency.value);
      expectNear(first!.frequency.value, 3, 1e-9);
      expectNear(first!.growthRate.value, -0.5, 1e-9);
      expectNear(first!.dampingRatio.value, 0.0265165, 1e-5);
      expectNear(second!.frequency.value, 7.5, 1e-9);
      expectNear(second!.growthRate.value, -0.2, 1e-9);
      expectNear(second!.dampingRatio.value, 0.00424409, 1e-5);
      expectNear(second!.amplitude, 0.6, 1e-9);
      expectNear(second!.phase, Math.PI / 4, 1e-9);
    },
  );

  test("with noise spreads as the published experiment has it: 40 dB and 20 dB, pencil of 40", () => {
    const power = twoModes.reduce((sum, y) => sum + y * y, 0) / twoModes.length;
    const random = randomGenerator(8);
    for (const [decibels, expected] of [
      [40, [7e-4, 1.1e-3, 0.0048, 0.0068]],
      [20, [0.0073, 0.0109, 0.047, 0.069]],
    ] as const) {
      const noise = Math.sqrt(power / 10 ** (decibels / 10));
      const found = Array.from({ length: 150 }, () => {
        const noisy = twoModes.map((y) => y + noise * random.gaussian());
        const { modes } = matrixPencil(noisy, 100, { order: 4, pencil: 40, refine: false });
        const [a, b] = modes.toSorted((p, q) => p.frequency.value - q.frequency.value);
        return [a!.frequency.value, b!.frequency.value, a!.growthRate.value, b!.growthRate.value];
      });
      for (const [k, spread] of expected.entries()) {
        // 150 runs: the spread itself is uncertain by 6 %, and the published figures are rounded.
        const ratio = standardDeviation(found.map((row) => row[k]!)) / spread;
        expect(ratio).toBeGreaterThan(0.8);
        expect(ratio).toBeLessThan(1.25);
      }
    }
  });

  test("recovers the closely spaced pair of Kumaresan & Tufts 1982 (its real part) from 25 samples", () => {
    const signal = ringing(25, 1, [
      { a: 1, sigma: -0.1, f: 0.48 },
      { a: 1, sigma: -0.2, f: 0.42 },
    ]);
    const { modes } = matrixPencil(signal, 1, { order: 4, pencil: 8, refine: false });
    const [first, second] = modes.toSorted((a, b) => a.frequency.value - b.frequency.value);
    expectNear(first!.growthRate.value, -0.2, 1e-7);
    expectNear(first!.frequency.value, 0.42, 1e-9);
    expectNear(second!.growthRate.value, -0.1, 1e-7);
    expectNear(second!.frequency.value, 0.48, 1e-9);
  });

  test("recovers a growing mode, 0.01 e^(1.2 t) sin(2 pi 6 t)", () => {
    const signal = ringing(400, 200, [{ a: 0.01, sigma: 1.2, f: 6, phase: -Math.PI / 2 }]);
    const { modes } = matrixPencil(signal, 200);
    expect(modes).toHaveLength(1);
    expectNear(modes[0]!.growthRate.value, 1.2, 1e-9);
    expectNear(modes[0]!.dampingRatio.value, -0.0318149, 1e-5);
    expectNear(timeToFactor(modes[0]!.growthRate.value, 2), 0.577623, 1e-6);
    const envelope = magnitude(analyticSignal(signal)).slice(80, 320);
    expectNear(growthRate(envelope, 200).value, 1.2116, 0.02);
  });
});

describe("autoregressive models", () => {
  test("an AR(2) of radius 0.98 at 5 Hz has the pole of its formula (Box & Jenkins)", () => {
    const model = {
      coefficients: Float64Array.of(1.585673308975, -0.9604),
      innovationVariance: 1,
      mean: 0,
      samples: 1000,
      autocovariance: Float64Array.of(1, 0.8),
    };
    const [mode] = autoregressiveModes(model, 50);
    expectNear(mode!.growthRate.value, -1.010135, 1e-5);
    expectNear(mode!.frequency.value, 5, 1e-9);
    expectNear(mode!.dampingRatio.value, 0.032137, 1e-5);
  });

  test("sunspots 1770-1869 (R's ar; Brockwell & Davis, Time Series)", () => {
    const yuleWalker = autoregression(sunspots1770to1869, 2);
    expect(yuleWalker.coefficients[0]).toBeCloseTo(1.31729, 4);
    expect(yuleWalker.coefficients[1]).toBeCloseTo(-0.63383, 4);
    const burg = autoregression(sunspots1770to1869, 2, { method: "burg" });
    expect(burg.coefficients[0]).toBeCloseTo(1.39536, 4);
    expect(burg.coefficients[1]).toBeCloseTo(-0.70803, 4);
    expect(1 / autoregressiveModes(yuleWalker, 1)[0]!.frequency.value).toBeCloseTo(10.53, 2);
    expect(1 / autoregressiveModes(burg, 1)[0]!.frequency.value).toBeCloseTo(10.59, 2);
    expect(autoregressiveModes(yuleWalker, 1)[0]!.dampingRatio.value).toBeCloseTo(0.357, 3);
    expect(autoregressiveModes(burg, 1)[0]!.dampingRatio.value).toBeCloseTo(0.279, 3);
  });

  test("luteinizing hormone (R's lh): AIC chooses order 3 with R's coefficients", () => {
    expect(autoregressionOrder(lh, 16)).toBe(3);
    const { coefficients } = autoregression(lh, 3);
    for (const [k, expected] of [0.6534017, -0.0636208, -0.2269402].entries()) {
      expect(coefficients[k]).toBeCloseTo(expected, 6);
    }
  });
});

test("beam deflections (NIST StRD Lew): the pencil finds the undamped line at 0.302 cycles a sample", () => {
  const mean = beamDeflections.reduce((sum, y) => sum + y, 0) / beamDeflections.length;
  const centred = beamDeflections.map((y) => y - mean);
  const [mode] = matrixPencil(centred, 1, { order: 2, pencil: 66, refine: false }).modes;
  expect(mode!.frequency.value).toBeCloseTo(0.301779, 4);
  expect(mode!.dampingRatio.value).toBeCloseTo(-0.0008, 3);
});

test("noise is still noise: a pencil on white noise promises no sharp frequency", () => {
  const { modes } = matrixPencil(
    linearCongruential(3, 300).map((u) => u - 0.5),
    1,
    { order: 2 },
  );
  const { low, high } = modes[0]!.dampingRatio;
  expect(high - low).toBeGreaterThan(0.001);
});
