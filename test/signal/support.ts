import { expect } from "vitest";
import { linearCongruential } from "../../src/signal/index.ts";

/** The noise of the reference script: lcg(seed) - 1/2. */
export function noise(seed: number, count: number): Float64Array {
  return linearCongruential(seed, count).map((u) => u - 0.5);
}

/** A sine of given amplitude and frequency. */
export function sine(options: {
  amplitude?: number;
  frequency: number;
  sampleRate: number;
  count: number;
  phase?: number;
}) {
  const { amplitude = 1, frequency, sampleRate, count, phase = 0 } = options;
  return Float64Array.from(
    { length: count },
    (_, n) => amplitude * Math.sin((2 * Math.PI * frequency * n) / sampleRate + phase),
  );
}

/** Every value within `tolerance` of its partner, relative to the largest value expected. */
export function expectClose(got: ArrayLike<number>, expected: ArrayLike<number>, tolerance = 1e-9): void {
  expect(got.length).toBe(expected.length);
  let scale = 0;
  for (let i = 0; i < expected.length; i++) scale = Math.max(scale, Math.abs(expected[i]!));
  for (let i = 0; i < expected.length; i++) {
    const error = Math.abs(got[i]! - expected[i]!);
    if (!(error <= tolerance * scale)) {
      expect.fail(`value ${i}: got ${got[i]}, expected ${expected[i]} (error ${error}, allowed ${tolerance * scale})`);
    }
  }
}

/** One value within a relative tolerance of another. */
export function expectNear(got: number, expected: number, tolerance = 1e-9): void {
  expectClose([got], [expected], tolerance);
}
