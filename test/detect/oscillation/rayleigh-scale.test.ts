import { expect, test } from "vitest";
import { rayleighQuantile, rayleighScale } from "../../../src/detect/oscillation/rayleigh-scale.ts";
import { randomGenerator } from "../../../src/signal/index.ts";
import { numbers } from "../../support/index.ts";

/** The envelope of narrow-band normal noise of rms 1 (Rice 1944). */
const noiseEnvelope = (count: number, seed: number) => {
  const random = randomGenerator(seed);
  return numbers(count, () => Math.hypot(random.gaussian(), random.gaussian()));
};

test("half of a Rayleigh envelope lies below 1.177 of its scale", () => {
  // sqrt(2 ln 2), the closed form of the median
  expect(rayleighQuantile(0.5)).toBeCloseTo(Math.sqrt(2 * Math.LN2), 12);
});

test("the scale of noise alone is its rms", () => {
  expect(rayleighScale(noiseEnvelope(20_000, 3), 0.15)).toBeCloseTo(1, 1.5);
});

test("an oscillation of ten times the noise over six tenths of a record leaves the scale as it is", () => {
  const noise = noiseEnvelope(20_000, 4);
  const envelope = noise.map((value, i) => (i < 12_000 ? Math.hypot(10 * Math.exp(-i / 20_000), value) : value));
  expect(Math.abs(rayleighScale(envelope, 0.15) - 1)).toBeLessThan(0.05);
});

test("what never moves has a scale of 0", () => {
  expect(rayleighScale(new Float64Array(10), 0.15)).toBe(0);
});
