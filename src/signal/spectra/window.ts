import { requireWhole } from "../checks.ts";
import { ArgumentError } from "../errors.ts";

/** The windows offered. "flat-top" is the five-term one whose first coefficient is 0.21557895; others bear that name too. */
export type WindowName =
  | "rectangular"
  | "triangular"
  | "parabolic"
  | "hann"
  | "hamming"
  | "blackman"
  | "nuttall"
  | "blackman-harris"
  | "flat-top";

/** Coefficients of the windows that are sums of cosines, w = a0 - a1 cos(x) + a2 cos(2x) - ... */
const cosineSums: Partial<Record<WindowName, readonly number[]>> = {
  rectangular: [1],
  hann: [0.5, 0.5],
  hamming: [0.54, 0.46],
  blackman: [0.42, 0.5, 0.08],
  nuttall: [0.3635819, 0.4891775, 0.1365995, 0.0106411],
  "blackman-harris": [0.35875, 0.48829, 0.14128, 0.01168],
  "flat-top": [0.21557895, 0.41663158, 0.277263158, 0.083578947, 0.006947368],
};

/**
 * Weights that fade a segment in and out, so that a strong line does not leak over the spectrum.
 * @param length number of weights
 * @param options symmetric: equal ends, for filter design; default false: periodic, for spectra
 * @throws ArgumentError if the length is not a whole number of at least 1, or the name is unknown
 * @see Harris 1978, Proc. IEEE 66(1):51-83
 */
export function window(name: WindowName, length: number, options: { symmetric?: boolean } = {}): Float64Array {
  requireWhole(length, 1, "length");
  if (length === 1) return Float64Array.of(1);
  const period = options.symmetric ? length - 1 : length;
  if (name === "triangular") return sample(length, (n) => 1 - Math.abs((2 * n) / period - 1));
  if (name === "parabolic") return sample(length, (n) => 1 - ((2 * n) / period - 1) ** 2);
  const coefficients = cosineSums[name];
  if (!coefficients)
    throw new ArgumentError("window", name, `one of triangular, parabolic, ${Object.keys(cosineSums).join(", ")}`);
  return sample(length, (n) => {
    let sum = 0;
    for (let k = 0; k < coefficients.length; k++) {
      sum += (k % 2 === 0 ? 1 : -1) * coefficients[k]! * Math.cos((2 * Math.PI * k * n) / period);
    }
    return sum;
  });
}

function sample(length: number, weight: (n: number) => number): Float64Array {
  return Float64Array.from({ length }, (_, n) => weight(n));
}
