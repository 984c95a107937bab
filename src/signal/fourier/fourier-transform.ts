import { requireFinite, requireSameLength } from "../checks.ts";
import type { ComplexArray } from "../complex-array.ts";
import { fourierPlan } from "./fourier-plan.ts";
import { realSpectrumPlan } from "./real-spectrum.ts";

/**
 * The exact discrete Fourier transform of any length, X[k] = sum x[n] exp(-2 pi i k n / N).
 * @param signal n complex values, or n real ones
 * @returns n complex values
 * @see Bluestein 1970, IEEE Trans. Audio Electroacoust. 18(4):451-455
 */
export function fourierTransform(signal: ComplexArray | Float64Array): ComplexArray {
  const re = signal instanceof Float64Array ? signal : signal.re;
  const im = signal instanceof Float64Array ? undefined : signal.im;
  requireFinite(re, "signal");
  if (im === undefined) return realTransform(re);
  requireFinite(im, "signal.im");
  requireSameLength(re, im, "signal.im");
  return runPlan(re, im, 1, 1);
}

/** The transform of real values: the upper half mirrors the lower one. */
function realTransform(samples: Float64Array): ComplexArray {
  const count = samples.length;
  const plan = realSpectrumPlan(count);
  plan.samples.set(samples);
  plan.run();
  const out = { re: new Float64Array(count), im: new Float64Array(count) };
  out.re.set(plan.re);
  out.im.set(plan.im);
  for (let k = plan.re.length; k < count; k++) {
    out.re[k] = plan.re[count - k]!;
    out.im[k] = -plan.im[count - k]!;
  }
  return out;
}

/** The inverse of `fourierTransform`: x[n] = 1/N sum X[k] exp(2 pi i k n / N). */
export function inverseFourierTransform(spectrum: ComplexArray): ComplexArray {
  requireSameLength(spectrum.re, spectrum.im, "spectrum.im");
  // The inverse is the conjugate of the forward transform of the conjugate.
  return runPlan(spectrum.re, spectrum.im, -1, 1 / spectrum.re.length);
}

function runPlan(re: Float64Array, im: Float64Array, sign: number, scale: number): ComplexArray {
  const plan = fourierPlan(re.length);
  for (let i = 0; i < re.length; i++) {
    plan.input[2 * i] = re[i]!;
    plan.input[2 * i + 1] = sign * im[i]!;
  }
  plan.run();
  const out = { re: new Float64Array(re.length), im: new Float64Array(re.length) };
  for (let i = 0; i < re.length; i++) {
    out.re[i] = plan.output[2 * i]! * scale;
    out.im[i] = plan.output[2 * i + 1]! * scale * sign;
  }
  return out;
}
