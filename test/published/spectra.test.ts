// Windows, spectra, coherence and frequency responses against tables, closed forms and fixed examples of SciPy 1.10.1.
import { describe, expect, test } from "vitest";
import {
  aliasedFrequency,
  bandPower,
  coherence,
  coherenceSignificanceLevel,
  densityInterval,
  effectiveAverages,
  fourierTransform,
  frequencyResponse,
  frequencyResponseError,
  overlapCorrelation,
  powerSpectralDensity,
  randomGenerator,
  standardDeviation,
  type WindowName,
  window,
  windowProperties,
} from "../../src/signal/index.ts";
import { expectClose, expectNear, noise, sine } from "../signal/support.ts";

describe("window table (Harris 1978, Proc. IEEE 66, table 1; periodic, 4096 points)", () => {
  test.each<[WindowName, number, number, number, number, number]>([
    ["rectangular", 1.0, 1.0, 3.9224, 0.5, 0.75],
    ["triangular", 0.5, 1.3333, 1.8242, 0.25, 0.7188],
    ["hann", 0.5, 1.5, 1.4236, 0.16667, 0.65915],
    ["hamming", 0.54, 1.3628, 1.7514, 0.23377, 0.70692],
    ["blackman", 0.42, 1.7268, 1.0989, 0.08963, 0.56667],
    ["nuttall", 0.3636, 1.9761, 0.8506, 0.04176, 0.46998],
    ["blackman-harris", 0.35875, 2.0044, 0.8256, 0.0376, 0.45999],
    ["flat-top", 0.21558, 3.7702, 0.0098, -0.01526, 0.0455],
    ["parabolic", 0.6667, 1.2, Number.NaN, 0.34375, Number.NaN],
  ])("%s", (name, gain, bandwidth, scallop, half, threeQuarters) => {
    const weights = window(name, 4096);
    const found = windowProperties(weights);
    expect(Math.abs(found.coherentGain - gain)).toBeLessThan(5e-4);
    expect(Math.abs(found.noiseBandwidth - bandwidth)).toBeLessThan(5e-4);
    if (!Number.isNaN(scallop)) expect(Math.abs(found.scallopLoss - scallop)).toBeLessThan(5e-4);
    expect(Math.abs(overlapCorrelation(weights, 2048) - half)).toBeLessThan(5e-4);
    if (!Number.isNaN(threeQuarters)) {
      expect(Math.abs(overlapCorrelation(weights, 1024) - threeQuarters)).toBeLessThan(5e-4);
    }
  });

  test.each<[WindowName, number, number, number]>([
    ["hamming", 1000, 1000, 1.3638],
    ["hann", 1000, 10_000, 15.015],
    ["hann", 128, 1000, 11.811],
    ["flat-top", 10_000, 44_100, 16.6285],
  ])("noise bandwidth of the symmetric %s of %d points at %d Hz (MathWorks, enbw)", (name, length, rate, expected) => {
    const bandwidth = windowProperties(window(name, length, { symmetric: true })).noiseBandwidth;
    expectNear((bandwidth * rate) / length, expected, 1e-4);
  });
});

test("the transform of 1, 2, 3, 4 keeps its energy (Parseval)", () => {
  const { re, im } = fourierTransform(Float64Array.of(1, 2, 3, 4));
  expectClose(re, [10, -2, -2, -2], 1e-12);
  expectClose(im, [0, 2, 0, -2], 1e-12);
});

describe("scaling of a Hann-windowed sine (Welch 1967; Heinzel et al. 2002)", () => {
  const options = { segmentLength: 1000, detrend: "none" } as const;

  test("on a bin: density A²/(2 ENBW df), power A²/2", () => {
    const tone = sine({ amplitude: 2, frequency: 50, sampleRate: 1000, count: 10_000 });
    const { frequency, density } = powerSpectralDensity(tone, 1000, options);
    expectNear(density[50]!, 4 / 3, 1e-9);
    expectNear(bandPower(frequency, density, 0, 500), 2, 1e-9);
  });

  test("between bins: 1.4236 dB low at the peak, whole in the band", () => {
    const tone = sine({ amplitude: 2, frequency: 50.5, sampleRate: 1000, count: 10_000 });
    const { frequency, density } = powerSpectralDensity(tone, 1000, options);
    expectNear(density[50]! * 1.5, 1.44101, 1e-4);
    expectNear(bandPower(frequency, density, 45, 56), 1.99999, 2e-5);
  });
});

test("fixed Welch example of two tones (SciPy welch)", () => {
  const x = Float64Array.from(
    { length: 64 },
    (_, n) => Math.sin(0.2 * Math.PI * n) + 0.5 * Math.cos(0.5 * Math.PI * n),
  );
  const { density } = powerSpectralDensity(x, 1, { segmentLength: 32 });
  const expected = [
    0.054750768, 0.007889629, 1.343909229, 10.121711463, 4.50479703, 0.022823511, 0.000997013, 0.663149669, 2.670142044,
  ];
  for (const [k, value] of expected.entries()) expect(density[k]).toBeCloseTo(value, 8);
});

test("fixed Welch example of noise (SciPy welch)", () => {
  const { density } = powerSpectralDensity(noise(1, 4096), 1, { segmentLength: 256 });
  for (const [k, value] of [
    [1, 0.13140619],
    [10, 0.208487039],
    [64, 0.191235162],
    [128, 0.091318087],
  ] as const) {
    expect(density[k]).toBeCloseTo(value, 8);
  }
});

describe("coherence and frequency response of a first-order lag in noise (SciPy coherence, csd)", () => {
  const u = noise(1, 4096);
  const v = noise(2, 4096);
  let state = 0;
  const y = u.map((value, n) => {
    state = 0.8 * state + value;
    return state + v[n]!;
  });
  const options = { segmentLength: 256 };

  test("coherence matches bin by bin, and theory within 0.1", () => {
    const found = coherence(u, y, 1, options).coherence;
    for (const [k, value, theory] of [
      [4, 0.964059089, 0.954],
      [16, 0.884119768, 0.861],
      [32, 0.588928797, 0.663],
      [64, 0.38839607, 0.379],
      [96, 0.286996919, 0.265],
    ] as const) {
      expect(found[k]).toBeCloseTo(value, 8);
      expect(Math.abs(found[k]! - theory)).toBeLessThan(0.1);
    }
  });

  test("H1 matches bin by bin", () => {
    const { magnitude, phase } = frequencyResponse(u, y, 1, options);
    for (const [k, gain, degrees] of [
      [4, 4.702651, -20.6108],
      [16, 2.691137, -47.2543],
      [64, 0.743414, -42.4088],
    ] as const) {
      expectNear(magnitude[k]!, gain, 1e-5);
      expectNear((phase[k]! * 180) / Math.PI, degrees, 1e-5);
    }
  });
});

describe("random errors (Bendat & Piersol, Random Data, chapters 8 and 9)", () => {
  test.each([
    [0.8, 32, 0.0625],
    [0.5, 50, 0.1],
    [0.9, 18, 0.0555556],
    [0.6, 12, 0.1666667],
  ])("of a response at coherence %d from %d averages", (coherence, averages, error) => {
    expectNear(frequencyResponseError(coherence, averages), error, 1e-6);
  });

  test("of a response, by experiment: coherence 0.8, 32 averages", () => {
    const random = randomGenerator(11);
    const gains: number[] = [];
    for (let trial = 0; trial < 2000; trial++) {
      let [xx, re] = [0, 0];
      let im = 0;
      for (let k = 0; k < 32; k++) {
        const [a, b] = [random.gaussian(), random.gaussian()];
        const [c, d] = [a + 0.5 * random.gaussian(), b + 0.5 * random.gaussian()];
        xx += a * a + b * b;
        re += a * c + b * d;
        im += a * d - b * c;
      }
      gains.push(Math.hypot(re, im) / xx);
    }
    const relative = standardDeviation(gains) / (gains.reduce((sum, gain) => sum + gain) / gains.length);
    expectNear(relative, 0.0625, 0.05);
  });

  test.each([
    [8, 0.4562, 3.6702],
    [16, 0.5547, 2.3163],
    [32, 0.6467, 1.7495],
    [64, 0.7272, 1.462],
  ])("of a density with %d degrees of freedom", (degreesOfFreedom, low, high) => {
    const factors = densityInterval(degreesOfFreedom);
    expectNear(factors.low, low, 2e-4);
    expectNear(factors.high, high, 2e-4);
  });

  test.each([
    [5, 0.5271],
    [10, 0.2831],
    [20, 0.1459],
    [32, 0.0921],
    [50, 0.0593],
  ])("coherence of unrelated signals from %d averages (Carter, Knapp & Nuttall 1973)", (averages, level) => {
    expectNear(coherenceSignificanceLevel(averages), level, 1e-3);
  });
});

describe("overlap correction (Welch 1967; Solomon, SAND91-1533)", () => {
  const weights = window("hann", 4096);

  test.each([
    [7, 0.5, 6.68],
    [15, 0.5, 14.26],
    [31, 0.5, 29.42],
    [29, 0.75, 15.34],
  ])("%d Hann segments at overlap %d are worth %d independent ones", (segments, overlap, expected) => {
    expectNear(effectiveAverages([segments], weights, 4096 * (1 - overlap)), expected, 5e-4);
  });

  test("many half-overlapping parabolic and triangular segments lose Welch's factors 11/9 and 9/8", () => {
    for (const [name, factor] of [
      ["parabolic", 11 / 9],
      ["triangular", 9 / 8],
    ] as const) {
      expectNear(100_000 / effectiveAverages([100_000], window(name, 1024), 512), factor, 0.015);
    }
  });
});

test("Hann windows overlap to a constant at 50 %, their squares at 75 % (Allen & Rabiner 1977)", () => {
  const weights = window("hann", 64);
  for (let n = 0; n < 16; n++) {
    const at = (k: number) => weights[(n + 16 * k) % 64]!;
    expectNear(at(0) + at(2), 1, 1e-12);
    expectNear(at(0) ** 2 + at(1) ** 2 + at(2) ** 2 + at(3) ** 2, 1.5, 1e-12);
  }
});

test("frequencies fold about half the sample rate (sampling theorem)", () => {
  for (const [frequency, rate, folded] of [
    [300, 250, 50],
    [300, 500, 200],
    [150, 250, 100],
    [180, 100, 20],
    [330, 400, 70],
  ] as const) {
    expect(aliasedFrequency(frequency, rate)).toBe(folded);
  }
});
