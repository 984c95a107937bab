import type { ComplexArray } from "../complex-array.ts";
import { type FourierPlan, fourierPlan } from "./fourier-plan.ts";
import { planCache } from "./plan-cache.ts";

/**
 * The transform of n real values, at the floor(n/2) + 1 frequencies from 0 to half the sample rate.
 * `samples` is scratch of the plan: fill it, call `run`, and read `re` and `im` before the next call.
 */
export interface RealSpectrumPlan {
  readonly length: number;
  readonly samples: Float64Array;
  readonly re: Float64Array;
  readonly im: Float64Array;
  run(): void;
}

/** The plan for a length; exact for every length. */
export const realSpectrumPlan = planCache(
  (length: number): RealSpectrumPlan => (length >= 4 && length % 2 === 0 ? packedPlan(length) : plainPlan(length)),
);

/**
 * The spectrum of real values at the frequencies from 0 to half the sample rate.
 * @param length n, to which zeros are added; by default none
 * @returns floor(n/2) + 1 complex values
 */
export function realSpectrum(samples: Float64Array, length = samples.length): ComplexArray {
  const plan = realSpectrumPlan(length);
  plan.samples.set(samples);
  plan.samples.fill(0, samples.length);
  plan.run();
  return { re: plan.re.slice(), im: plan.im.slice() };
}

/**
 * The n real values of a spectrum that is given at the frequencies from 0 to half the sample rate. Real and imaginary
 * part together make a Hartley transform, which is its own inverse, and a plan for real values computes those.
 * @param spectrum floor(n/2) + 1 complex values; the first one's imaginary part counts as 0, as does the last one's for an even n
 * @param length n
 * @see Bracewell 1983, J. Opt. Soc. Am. 73(12):1832-1835
 */
export function inverseRealSpectrum({ re, im }: ComplexArray, length: number): Float64Array {
  const plan = realSpectrumPlan(length);
  const { samples } = plan;
  samples[0] = re[0]!;
  for (let k = 1, mirror = length - 1; k <= mirror; k++, mirror--) {
    const turned = k === mirror ? 0 : im[k]!;
    samples[k] = re[k]! - turned;
    samples[mirror] = re[k]! + turned;
  }
  plan.run();
  const values = new Float64Array(length);
  values[0] = plan.re[0]! / length;
  for (let n = 1, mirror = length - 1; n <= mirror; n++, mirror--) {
    values[n] = (plan.re[n]! - plan.im[n]!) / length;
    values[mirror] = (plan.re[n]! + plan.im[n]!) / length;
  }
  return values;
}

function plainPlan(length: number): RealSpectrumPlan {
  const bins = Math.floor(length / 2) + 1;
  const samples = new Float64Array(length);
  const re = new Float64Array(bins);
  const im = new Float64Array(bins);
  const plan = fourierPlan(length);
  function run(): void {
    for (let i = 0; i < length; i++) {
      plan.input[2 * i] = samples[i]!;
      plan.input[2 * i + 1] = 0;
    }
    plan.run();
    for (let k = 0; k < bins; k++) {
      re[k] = plan.output[2 * k]!;
      im[k] = plan.output[2 * k + 1]!;
    }
  }
  return { length, samples, re, im, run };
}

/**
 * Reads n real values as n/2 complex ones, whose transform is half the work; even and odd parts then come apart by
 * symmetry. See Brigham 1988, The Fast Fourier Transform and Its Applications, section 9.3.
 */
function packedPlan(length: number): RealSpectrumPlan {
  const half = length / 2;
  const half2 = 2 * half;
  const plan: FourierPlan = fourierPlan(half);
  const z = plan.output;
  const re = new Float64Array(half + 1);
  const im = new Float64Array(half + 1);
  const cosine = new Float64Array(half + 1);
  const sine = new Float64Array(half + 1);
  for (let k = 0; k <= half; k++) {
    cosine[k] = Math.cos((2 * Math.PI * k) / length) / 2;
    sine[k] = Math.sin((2 * Math.PI * k) / length) / 2;
  }
  function run(): void {
    plan.run();
    re[0] = z[0]! + z[1]!;
    im[0] = 0;
    re[half] = z[0]! - z[1]!;
    im[half] = 0;
    for (let k = 1; k < half; k++) {
      const a = z[2 * k]!;
      const b = z[2 * k + 1]!;
      const c = z[half2 - 2 * k]!;
      const d = z[half2 - 2 * k + 1]!;
      re[k] = (a + c) / 2 + cosine[k]! * (b + d) - sine[k]! * (a - c);
      im[k] = (b - d) / 2 - sine[k]! * (b + d) - cosine[k]! * (a - c);
    }
  }
  return { length, samples: plan.input, re, im, run };
}
