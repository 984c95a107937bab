import { describe, expect, test } from "vitest";
import {
  ArgumentError,
  bandPower,
  mean,
  powerSpectralDensity,
  randomGenerator,
  SignalTooShortError,
  spectralPeak,
  standardDeviation,
} from "../../../src/signal/index.ts";
import { expectNear, sine } from "../support.ts";

const bins = Float64Array.from({ length: 40 }, (_, k) => k / 2);

describe("spectralPeak", () => {
  test("finds the top of a bell curve between bins exactly: its logarithm is a parabola", () => {
    const density = bins.map((f) => 3 * Math.exp(-((f - 7.3) ** 2) / 4));
    for (const reach of [1, 3]) {
      const peak = spectralPeak(bins, density, { reach })!;
      expectNear(peak.frequency, 7.3, 1e-9);
      expectNear(peak.density, 3, 1e-9);
      expect(peak.frequencyError).toBeNaN();
    }
  });

  test("places a Hann-windowed tone within a thirtieth of a bin", () => {
    for (const part of [0, 0.2, 0.4, 0.5, 0.7]) {
      const tone = sine({ frequency: 100 + part, sampleRate: 1024, count: 4096 });
      const { frequency, density } = powerSpectralDensity(tone, 1024);
      expect(Math.abs(spectralPeak(frequency, density)!.frequency - 100 - part)).toBeLessThan(0.034);
    }
  });

  test("looks only in its range, and has no answer where nothing rises", () => {
    const density = bins.map((f) => Math.exp(-((f - 5) ** 2)) + 0.1 * Math.exp(-((f - 12) ** 2)));
    expectNear(spectralPeak(bins, density, { from: 9 })!.frequency, 12, 1e-3);
    expect(spectralPeak(bins, new Float64Array(40).fill(1))).toBeUndefined();
    expect(() => spectralPeak(bins, density, { from: 9, to: 8 })).toThrow(ArgumentError);
    expect(() => spectralPeak(bins.slice(0, 3), density.slice(0, 3))).toThrow(SignalTooShortError);
    expect(() => spectralPeak(bins, density.slice(1))).toThrow(/density/);
  });

  test("reports an error for a resonance in noise that is 0 to 30 % below what experiment shows", () => {
    const random = randomGenerator(1);
    const [rate, angle, radius] = [50, 1.0053, 0.9039];
    const [a1, a2] = [2 * radius * Math.cos(angle), -radius * radius];
    const found = Array.from({ length: 100 }, () => {
      const x = new Float64Array(6000);
      for (let n = 2; n < x.length; n++) x[n] = a1 * x[n - 1]! + a2 * x[n - 2]! + random.gaussian();
      const { frequency, density, degreesOfFreedom } = powerSpectralDensity(x, rate, { segmentLength: 256 });
      return spectralPeak(frequency, density, { reach: 4, degreesOfFreedom })!;
    });
    const ratio = mean(found.map((p) => p.frequencyError)) / standardDeviation(found.map((p) => p.frequency));
    expect(ratio).toBeGreaterThan(0.65);
    expect(ratio).toBeLessThan(1.05);
  });
});

test("bandPower adds the bins of a band, both ends included", () => {
  expect(bandPower(bins, new Float64Array(40).fill(2), 1, 2)).toBe(3);
  expect(() => bandPower(bins, new Float64Array(40), 2, 1)).toThrow(/from/);
});
