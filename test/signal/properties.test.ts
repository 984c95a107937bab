// Laws that hold for any input, tried on many.
import fc from "fast-check";
import { expect, test } from "vitest";
import {
  analyticSignal,
  autocovariance,
  butterworth,
  chiSquareCdf,
  chiSquareQuantile,
  coherence,
  filterZeroPhase,
  fourierTransform,
  inverseFourierTransform,
  median,
  powerSpectralDensity,
  quantiles,
  runningMedian,
  studentTCdf,
  studentTQuantile,
} from "../../src/signal/index.ts";
import { expectClose } from "./support.ts";

const value = fc.double({ min: -1e3, max: 1e3, noNaN: true });
const samples = (minLength: number, maxLength = 200) =>
  fc.array(value, { minLength, maxLength }).map((values) => Float64Array.from(values));
const runs = { numRuns: 60, seed: 4 };

test("the inverse transform brings back a signal of any length, and energy is kept", () => {
  fc.assert(
    fc.property(samples(1), (x) => {
      const spectrum = fourierTransform(x);
      const scale = Math.max(1, ...x.map(Math.abs));
      const back = inverseFourierTransform(spectrum).re;
      for (let i = 0; i < x.length; i++) expect(Math.abs(back[i]! - x[i]!)).toBeLessThan(1e-11 * scale);
      const energy = (values: Float64Array) => values.reduce((sum, v) => sum + v * v, 0);
      const there = (energy(spectrum.re) + energy(spectrum.im)) / x.length;
      expect(Math.abs(there - energy(x))).toBeLessThan(1e-10 * Math.max(1, energy(x)));
    }),
    runs,
  );
});

test("the real part of an analytic signal is the signal", () => {
  fc.assert(
    fc.property(samples(1), (x) => {
      const { re } = analyticSignal(x);
      for (let i = 0; i < x.length; i++) expect(Math.abs(re[i]! - x[i]!)).toBeLessThan(1e-9);
    }),
    runs,
  );
});

test("a density grows with the square of its signal, is never below zero, and its interval contains it", () => {
  fc.assert(
    fc.property(samples(32), fc.double({ min: 0.1, max: 10, noNaN: true }), (x, factor) => {
      const options = { segmentLength: 16 };
      const one = powerSpectralDensity(x, 10, options);
      const more = powerSpectralDensity(
        x.map((v) => factor * v),
        10,
        options,
      );
      expectClose(
        more.density,
        one.density.map((v) => v * factor ** 2),
        1e-9,
      );
      for (let k = 0; k < one.density.length; k++) {
        expect(one.density[k]).toBeGreaterThanOrEqual(0);
        expect(one.low[k]).toBeLessThanOrEqual(one.density[k]!);
        expect(one.high[k]).toBeGreaterThanOrEqual(one.density[k]!);
      }
    }),
    runs,
  );
});

test("coherence stays between 0 and 1", () => {
  fc.assert(
    fc.property(samples(64, 64), samples(64, 64), (x, y) => {
      for (const level of coherence(x, y, 1, { segmentLength: 16 }).coherence) {
        expect(level).toBeGreaterThanOrEqual(0);
        expect(level).toBeLessThanOrEqual(1);
      }
    }),
    runs,
  );
});

test("zero-phase filtering is linear", () => {
  const filter = butterworth(2, [5, 20], 100);
  fc.assert(
    fc.property(samples(40, 80), (x) => {
      const doubled = filterZeroPhase(
        filter,
        x.map((v) => 2 * v),
      );
      const single = filterZeroPhase(filter, x);
      for (let i = 0; i < x.length; i++) expect(Math.abs(doubled[i]! - 2 * single[i]!)).toBeLessThan(1e-8);
    }),
    runs,
  );
});

test("autocovariance is largest at lag 0", () => {
  fc.assert(
    fc.property(samples(2), (x) => {
      const covariance = autocovariance(x);
      for (const c of covariance) expect(Math.abs(c)).toBeLessThanOrEqual(covariance[0]! * (1 + 1e-9) + 1e-9);
    }),
    runs,
  );
});

test("quantiles rise, and the running median of all is the median", () => {
  fc.assert(
    fc.property(samples(1, 41), (x) => {
      const [low, middle, high] = quantiles(x, [0.1, 0.5, 0.9]);
      expect(low!).toBeLessThanOrEqual(middle!);
      expect(middle!).toBeLessThanOrEqual(high!);
      const everywhere = runningMedian(x, 2 * x.length + 1);
      expect(everywhere[0]).toBeCloseTo(median(x), 9);
    }),
    runs,
  );
});

test("quantile functions invert their distributions", () => {
  const probability = fc.double({ min: 1e-6, max: 1 - 1e-6, noNaN: true });
  fc.assert(
    fc.property(probability, fc.double({ min: 0.3, max: 500, noNaN: true }), (p, dof) => {
      expect(Math.abs(chiSquareCdf(chiSquareQuantile(p, dof), dof) - p)).toBeLessThan(1e-12);
      expect(Math.abs(studentTCdf(studentTQuantile(p, dof), dof) - p)).toBeLessThan(1e-12);
    }),
    { ...runs, numRuns: 200 },
  );
});
