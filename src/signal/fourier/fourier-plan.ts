import FFT from "fft.js";
import { requireWhole } from "../checks.ts";
import { isPowerOfTwo, nextPowerOfTwo } from "./next-power-of-two.ts";
import { planCache } from "./plan-cache.ts";

/**
 * A complex transform of one length. Its interleaved arrays (re, im, re, im, ...) are scratch of the plan:
 * fill `input`, call `run`, read `output` before the next call.
 */
export interface FourierPlan {
  readonly length: number;
  readonly input: Float64Array;
  readonly output: Float64Array;
  run(): void;
}

/** The plan for a length: fft.js for a power of two, Bluestein's algorithm for any other. */
export const fourierPlan = planCache((length: number): FourierPlan => {
  requireWhole(length, 1, "length");
  return length > 1 && isPowerOfTwo(length) ? powerOfTwoPlan(length) : bluesteinPlan(length);
});

function powerOfTwoPlan(length: number): FourierPlan {
  const fft = new FFT(length);
  const input = new Float64Array(2 * length);
  const output = new Float64Array(2 * length);
  return { length, input, output, run: () => fft.transform(output, input) };
}

/**
 * Bluestein's chirp transform: a transform of any length as one circular convolution of a power-of-two length.
 * The chirp's angle is reduced with whole numbers (n² mod 2N), so that long transforms lose no digits.
 */
function bluesteinPlan(length: number): FourierPlan {
  const size = Math.max(2, nextPowerOfTwo(2 * length - 1));
  const fft = new FFT(size);
  const chirp = new Float64Array(2 * length);
  const padded = new Float64Array(2 * size);
  const spectrum = new Float64Array(2 * size);
  const kernel = new Float64Array(2 * size);
  for (let n = 0, square = 0; n < length; n++) {
    const angle = (Math.PI * square) / length;
    chirp[2 * n] = Math.cos(angle);
    chirp[2 * n + 1] = -Math.sin(angle);
    square = (square + 2 * n + 1) % (2 * length);
    for (const place of [n, (size - n) % size]) {
      padded[2 * place] = chirp[2 * n]!;
      padded[2 * place + 1] = -chirp[2 * n + 1]!;
    }
  }
  fft.transform(kernel, padded);
  const input = new Float64Array(2 * length);
  const output = new Float64Array(2 * length);

  function run(): void {
    multiplyInterleaved(input, chirp, padded, length);
    padded.fill(0, 2 * length);
    fft.transform(spectrum, padded);
    multiplyInterleaved(spectrum, kernel, spectrum, size);
    fft.inverseTransform(padded, spectrum);
    multiplyInterleaved(padded, chirp, output, length);
  }
  return { length, input, output, run };
}

function multiplyInterleaved(a: Float64Array, b: Float64Array, out: Float64Array, count: number): void {
  for (let i = 0; i < 2 * count; i += 2) {
    const re = a[i]! * b[i]! - a[i + 1]! * b[i + 1]!;
    out[i + 1] = a[i]! * b[i + 1]! + a[i + 1]! * b[i]!;
    out[i] = re;
  }
}
