// Oscillation indices of the process-control literature: definitions, closed forms and fixed experiments.
import { describe, expect, test } from "vitest";
import {
  autocorrelationDecayRatio,
  decayRatioOf,
  fourierTransform,
  halfPeriodSimilarity,
  loadDisturbances,
  magnitude,
  zeroCrossingRegularity,
} from "../../src/signal/index.ts";
import { expectNear, noise, sine } from "../signal/support.ts";
import { beamDeflections } from "./public-series.ts";

/** AR(2) driven by lcg(7) noise, of pole radius r and angle 2 pi / 32. */
function drivenLoop(radius: number, count: number, angle = (2 * Math.PI) / 32): Float64Array {
  const out = new Float64Array(count);
  const drive = noise(7, count);
  for (let n = 0; n < count; n++) {
    const [one, two] = [n > 0 ? out[n - 1]! : 0, n > 1 ? out[n - 2]! : 0];
    out[n] = 2 * radius * Math.cos(angle) * one - radius * radius * two + drive[n]!;
  }
  return out;
}

describe("load disturbances (Hagglund 1995)", () => {
  const options = { amplitude: 0.01, ultimateFrequency: 5 };
  const run = (amplitude: number, frequency: number) =>
    loadDisturbances(sine({ amplitude, frequency, sampleRate: 1000, count: 6000 }), 1000, options);

  test("a sine of twice the amplitude is 59 loads in 6 s, with the alarm at the 11th half-period", () => {
    const { count, alarm, score } = run(0.02, 5);
    expect(count).toBe(59);
    expect(alarm! / 1000).toBeCloseTo(1.1, 2);
    expect(score[5999]).toBeCloseTo(44.35, 0);
  });

  test("amplitudes just below and above the limit are told apart", () => {
    expect(run(0.009, 5).count).toBe(0);
    expect(run(0.011, 5).alarm! / 1000).toBeCloseTo(1.1, 2);
  });

  test("a slow oscillation counts, a fast one does not", () => {
    expect(run(0.02, 2.5).alarm! / 1000).toBeCloseTo(2.4, 1);
    expect(run(0.02, 12).alarm).toBeUndefined();
  });
});

describe("regularity of zero crossings (Thornhill, Huang & Zhang 2003)", () => {
  const oscillation = (amplitude: number) =>
    noise(7, 1024).map((u, n) => u * (amplitude > 50 ? 0 : 1) + amplitude * Math.sin((2 * Math.PI * n) / 32));

  test.each([
    [2, 735, 32.0015],
    [0.5, 53, 32.026],
  ])("a sine of amplitude %d in noise", (amplitude, regularity, period) => {
    const found = zeroCrossingRegularity(oscillation(amplitude))!;
    expectNear(found.regularity, regularity, 0.05);
    expectNear(found.period, period, 1e-3);
  });

  test("a pure sine is as regular as can be", () => {
    const found = zeroCrossingRegularity(oscillation(100))!;
    expect(found.regularity).toBeGreaterThan(1e4);
    expect(found.period).toBeCloseTo(32.001, 2);
  });

  test("a faint sine and noise alone are not regular", () => {
    expectNear(zeroCrossingRegularity(oscillation(0.25))!.regularity, 0.66, 0.02);
    expectNear(zeroCrossingRegularity(noise(7, 1024))!.regularity, 0.52, 0.02);
  });

  test("beam deflections (NIST StRD Lew)", () => {
    const found = zeroCrossingRegularity(beamDeflections)!;
    expectNear(found.regularity, 6.12, 0.01);
    expectNear(found.period, 3.329, 0.001);
  });

  test("a signal that crosses too seldom has no answer", () => {
    expect(zeroCrossingRegularity(Float64Array.from({ length: 50 }, (_, n) => n))).toBeUndefined();
  });
});

describe("decay ratio of the autocorrelation (Miao & Seborg 1999)", () => {
  test.each([
    [0.05, 0.8545],
    [0.1, 0.7291],
    [0.2, 0.5264],
    [0.3, 0.3726],
  ])("of a second-order loop with damping ratio %d is its half-cycle decay", (zeta, expected) => {
    const damped = Math.sqrt(1 - zeta * zeta);
    // Exact autocorrelation of the noise-driven loop, 2000 points a cycle.
    const rho = Float64Array.from({ length: 5000 }, (_, k) => {
      const t = (2 * Math.PI * k) / 2000 / damped;
      return Math.exp(-zeta * t) * (Math.cos(damped * t) + (zeta / damped) * Math.sin(damped * t));
    });
    const { decayRatio, period } = decayRatioOf(rho)!;
    expect(Math.abs(decayRatio - expected)).toBeLessThan(5e-4);
    expectNear(decayRatio, Math.exp((-Math.PI * zeta) / damped), 1e-4);
    expectNear(period, 2000, 1e-4);
  });

  test.each([
    [0.99, 0.836],
    [0.95, 0.403],
    [0.9, 0.113],
  ])("from 16384 samples of a noise-driven loop of pole radius %d", (radius, expected) => {
    const found = autocorrelationDecayRatio(drivenLoop(radius, 16_384), { maxLag: 200 })!;
    expect(Math.abs(found.decayRatio - expected)).toBeLessThan(0.05);
  });

  test("a constant has none", () => {
    expect(autocorrelationDecayRatio(new Float64Array(64).fill(3))).toBeUndefined();
  });
});

test.each([
  [0.99, 0.051, 22.4],
  [0.95, 0.253, 3.09],
  [0.9, 0.473, 0.57],
  [0.7, 0.876, 0.56],
])("a noise-driven loop of pole radius %d (damping ratio %d) has a regularity of %d", (radius, _, regularity) => {
  // The second is a false alarm of the index: lightly damped, not oscillating by itself.
  expectNear(zeroCrossingRegularity(drivenLoop(radius, 4096))!.regularity, regularity, 0.02);
});

describe("clipped sines (Fourier)", () => {
  const count = 8192;
  const wave = sine({ frequency: 1, sampleRate: count, count });
  const harmonics = (clip: (x: number) => number) => magnitude(fourierTransform(wave.map(clip)));

  test.each([
    [2, 0.226326, 0.608998],
    [1.2, 0.064904, 0.920395],
    [5, 0.315652, 0.25294],
  ])("at both limits, amplitude %d of the limit", (ratio, third, gain) => {
    const size = harmonics((x) => Math.max(-1 / ratio, Math.min(1 / ratio, x)));
    expectNear(size[3]! / size[1]!, third, 1e-5);
    expectNear((size[1]! * 2) / count, gain, 1e-5);
  });

  test.each([
    [2, 0.171327, 0.804499, 0.217996],
    [1.2, 0.037328, 0.960198, 0.024713],
  ])("at a floor, amplitude %d of the room below the mean", (ratio, second, gain, shift) => {
    const size = harmonics((x) => Math.max(-1 / ratio, x));
    expectNear(size[2]! / size[1]!, second, 1e-5);
    expectNear((size[1]! * 2) / count, gain, 1e-5);
    expectNear((size[0]! / count) * ratio, shift, 5e-5);
  });
});

describe("similarity of half-periods (Forsman & Stattin 1999)", () => {
  test("is 1 for a sine and small for white noise", () => {
    expect(halfPeriodSimilarity(sine({ frequency: 1, sampleRate: 32, count: 1024, phase: 0.1 }))).toBe(1);
    let sum = 0;
    for (let seed = 1; seed <= 50; seed++)
      sum += halfPeriodSimilarity(noise(seed * 7919, 1024), { area: 0.5, duration: 0.7 })!;
    expect(Math.abs(sum / 50 - 0.189)).toBeLessThan(0.05);
  });

  test("has no answer without two half-periods of the same sign", () => {
    expect(halfPeriodSimilarity(Float64Array.of(1, 1, -1, -1, 1))).toBeUndefined();
  });
});
