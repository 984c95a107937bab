import { describe, expect, test } from "vitest";
import {
  coherence,
  crossSpectralDensity,
  type Detrend,
  multitaperSpectralDensity,
  NotFiniteError,
  powerSpectralDensity,
  SignalTooShortError,
  shortTimeSpectra,
  type WindowName,
  window,
} from "../../../src/signal/index.ts";
import reference from "../../reference/spectra.json" with { type: "json" };
import { expectClose, noise, sine } from "../support.ts";

describe("agreement with SciPy (version in the reference file)", () => {
  test.each(reference.windows)("window($name, $length, symmetric $symmetric) has SciPy's weights", (row) => {
    expectClose(window(row.name as WindowName, row.length, { symmetric: row.symmetric }), row.weights, 1e-12);
  });

  test.each(reference.welch)("spectra of $samples samples in segments of $segmentLength ($window, $detrend)", (row) => {
    const x = noise(1, row.samples).map((u) => u + 0.3);
    const y = noise(2, row.samples).map((v, i) => (i > 0 ? v + 0.8 * x[i - 1]! : v));
    const options = { ...row, window: row.window as WindowName, detrend: row.detrend as Detrend };
    const power = powerSpectralDensity(x, 250, options);
    expectClose(power.frequency, row.frequency);
    expectClose(power.density, row.power);
    const cross = crossSpectralDensity(x, y, 250, options);
    expectClose(cross.re, row.cross.re);
    expectClose(cross.im, row.cross.im);
    expectClose(cross.first, row.power);
    // With its mean or line taken off, a segment holds only rounding errors at frequency 0: no coherence to compare.
    const first = row.detrend === "none" ? 0 : 1;
    expectClose(coherence(x, y, 250, options).coherence.slice(first), row.coherence.slice(first));
  });

  test("shortTimeSpectra lays out SciPy's spectrogram as [frames, frequencies]", () => {
    const spectra = shortTimeSpectra(noise(3, 500), 100, { segmentLength: 64, overlap: 0.75 });
    expectClose(spectra.time, reference.spectrogram.time);
    expectClose(spectra.frequency, reference.spectrogram.frequency);
    expect(spectra.density.shape).toEqual([reference.spectrogram.time.length, reference.spectrogram.frequency.length]);
    expectClose(spectra.density.data, reference.spectrogram.density.flat());
  });

  test("multitaperSpectralDensity averages the periodograms of the sine tapers", () => {
    expectClose(multitaperSpectralDensity(noise(4, 100), 50, { tapers: 4 }).density, reference.multitaper);
  });
});

describe("powerSpectralDensity(samples, sampleRate)", () => {
  test("integrates to A²/2 for a sine of amplitude A", () => {
    const { density } = powerSpectralDensity(
      sine({ amplitude: 2, frequency: 125, sampleRate: 1000, count: 8192 }),
      1000,
    );
    expect(density.reduce((sum, value) => sum + value) * (1000 / 1024)).toBeCloseTo(2, 9);
  });

  test("never crosses a gap: two stretches give the mean of their own segments", () => {
    const [a, b] = [noise(1, 512), noise(2, 512).map((u) => u + 100)];
    const options = { segmentLength: 256, overlap: 0 };
    const both = powerSpectralDensity([a, b], 10, options);
    const [first, second] = [powerSpectralDensity(a, 10, options), powerSpectralDensity(b, 10, options)];
    expectClose(
      both.density,
      first.density.map((value, k) => (value + second.density[k]!) / 2),
    );
    expect(both.segments).toBe(4);
  });

  test("leaves its input as it was", () => {
    const samples = noise(1, 2048);
    const copy = samples.slice();
    powerSpectralDensity(samples, 100, { detrend: "linear" });
    expect(samples).toEqual(copy);
  });

  test("finds no power in a constant signal", () => {
    const { density } = powerSpectralDensity(new Float64Array(2048).fill(7), 100);
    expect(Math.max(...density)).toBe(0);
  });

  test("refuses an empty signal, NaN, a wrong rate, a wrong overlap and an unknown window, naming the argument", () => {
    expect(() => powerSpectralDensity(new Float64Array(0), 100)).toThrow(SignalTooShortError);
    expect(() => powerSpectralDensity([], 100)).toThrow(/samples: needs at least 1024 samples, got 0/);
    expect(() => powerSpectralDensity(Float64Array.of(1, Number.NaN), 100)).toThrow(NotFiniteError);
    expect(() => powerSpectralDensity(Float64Array.of(1, Number.NaN), 100)).toThrow(/got NaN at index 1/);
    expect(() => powerSpectralDensity(noise(1, 2000), 0)).toThrow(/sampleRate: needs a finite number above 0, got 0/);
    expect(() => powerSpectralDensity(noise(1, 2000), 1, { overlap: 1 })).toThrow(/overlap: needs a share/);
    expect(() => powerSpectralDensity(noise(1, 2000), 1, { window: "kaiser" as "hann" })).toThrow(/one of/);
  });

  test("has an interval that covers the truth in 95 % of bins of white noise", () => {
    let [inside, bins] = [0, 0];
    for (let seed = 1; seed <= 40; seed++) {
      const { density, low, high } = powerSpectralDensity(noise(seed * 7919, 4096), 1, { segmentLength: 256 });
      for (let k = 2; k < density.length - 2; k++, bins++) if (low[k]! < 1 / 6 && high[k]! > 1 / 6) inside++;
    }
    expect(inside / bins).toBeGreaterThan(0.93);
    expect(inside / bins).toBeLessThan(0.97);
  });
});

describe("crossSpectralDensity and coherence", () => {
  test("refuse signals of different lengths and a different number of stretches", () => {
    expect(() => crossSpectralDensity(noise(1, 2000), noise(2, 1999), 1)).toThrow(/second/);
    expect(() => coherence([noise(1, 2000)], [noise(2, 2000), noise(3, 2000)], 1)).toThrow(/2 stretches/);
  });

  test("call 0 the coherence with a constant signal", () => {
    const { coherence: values } = coherence(noise(1, 4096), new Float64Array(4096), 1);
    expect(Math.max(...values)).toBe(0);
  });
});

test("shortTimeSpectra places frames by the start time of each stretch", () => {
  const { time } = shortTimeSpectra([noise(1, 64), noise(2, 64)], 64, { segmentLength: 64, startTimes: [10, 20] });
  expect([...time]).toEqual([10.5, 20.5]);
});
