import { requirePositive } from "../checks.ts";
import type { Complex } from "../complex-array.ts";
import { polynomialRoots } from "../linear-algebra/polynomial-roots.ts";
import { pseudoInverse } from "../linear-algebra/pseudo-inverse.ts";
import type { Autoregression } from "./autoregression.ts";
import { type Mode, modeOfPole } from "./mode.ts";

/**
 * Oscillations of a noise-driven process, from the poles of its autoregressive model. Intervals come from the
 * large-sample covariance of the coefficients. They hold for a process that really is autoregressive of this order;
 * noise added by a sensor makes damping read high at low orders.
 * @param sampleRate samples per second, Hz
 * @param options confidence, default 0.95
 * @returns complex pairs only (frequency above 0 and below half the sample rate), least damped first
 * @see Box & Jenkins, Time Series Analysis, sections 3.2 and 7.2
 */
export function autoregressiveModes(
  model: Autoregression,
  sampleRate: number,
  options: { confidence?: number } = {},
): Mode[] {
  requirePositive(sampleRate, "sampleRate");
  const covariance = coefficientCovariance(model);
  const roots = polynomialRoots(Float64Array.of(1, ...model.coefficients.map((value) => -value)));
  const modes: Mode[] = [];
  for (let k = 0; k < roots.re.length; k++) {
    const z = { re: roots.re[k]!, im: roots.im[k]! };
    if (!(z.im > 0)) continue;
    const sensitivity = logPoleGradient(z, model.coefficients);
    const quadratic = (u: Float64Array, v: Float64Array) => {
      let sum = 0;
      for (let i = 0; i < u.length; i++)
        for (let j = 0; j < v.length; j++) sum += u[i]! * covariance[i * v.length + j]! * v[j]!;
      return sum * sampleRate ** 2;
    };
    const { re, im } = sensitivity;
    const pole = {
      sigma: Math.log(Math.hypot(z.re, z.im)) * sampleRate,
      omega: Math.atan2(z.im, z.re) * sampleRate,
      covariance: [quadratic(re, re), quadratic(re, im), quadratic(im, im)] as const,
    };
    modes.push(modeOfPole(pole, model.samples - 2 * model.coefficients.length, options.confidence));
  }
  return modes.sort((a, b) => a.dampingRatio.value - b.dampingRatio.value);
}

/** innovation variance / n times the inverse of the covariance matrix of neighbouring samples. */
function coefficientCovariance({
  autocovariance,
  coefficients,
  innovationVariance,
  samples,
}: Autoregression): Float64Array {
  const order = coefficients.length;
  const data = new Float64Array(order * order);
  for (let i = 0; i < order; i++)
    for (let j = 0; j < order; j++) data[i * order + j] = autocovariance[Math.abs(i - j)]!;
  return pseudoInverse({ rows: order, columns: order, data }).data.map(
    (value) => (value * innovationVariance) / samples,
  );
}

/** Gradient of ln z by each coefficient, where P(z) = z^p - sum a_k z^(p-k) = 0: z^(p-k) / (z P'(z)). */
function logPoleGradient(z: Complex, coefficients: Float64Array): { re: Float64Array; im: Float64Array } {
  const order = coefficients.length;
  const size = Math.log(Math.hypot(z.re, z.im));
  const angle = Math.atan2(z.im, z.re);
  const power = (n: number): Complex => ({
    re: Math.exp(n * size) * Math.cos(n * angle),
    im: Math.exp(n * size) * Math.sin(n * angle),
  });
  let [re, im] = [order * power(order).re, order * power(order).im];
  for (let k = 1; k < order; k++) {
    const term = power(order - k);
    re -= coefficients[k - 1]! * (order - k) * term.re;
    im -= coefficients[k - 1]! * (order - k) * term.im;
  }
  const square = re * re + im * im;
  const out = { re: new Float64Array(order), im: new Float64Array(order) };
  for (let k = 1; k <= order; k++) {
    const top = power(order - k);
    out.re[k - 1] = (top.re * re + top.im * im) / square;
    out.im[k - 1] = (top.im * re - top.re * im) / square;
  }
  return out;
}
