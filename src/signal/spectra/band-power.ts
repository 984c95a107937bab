import { requireSameLength } from "../checks.ts";
import { ArgumentError } from "../errors.ts";

/**
 * Power in a band, u²: the sum of a one-sided density times the bin width over the bins from `from` to `to`, both
 * included. Its square root is the rms value in that band.
 * @param frequency evenly spaced, Hz
 * @param density u²/Hz
 */
export function bandPower(frequency: Float64Array, density: Float64Array, from: number, to: number): number {
  requireSameLength(frequency, density, "density");
  if (!(from <= to)) throw new ArgumentError("from", from, `at most \`to\` (${to})`);
  const width = frequency[1]! - frequency[0]!;
  // A bin a rounding error outside the band still belongs to it.
  const slack = width * 1e-9;
  let sum = 0;
  for (let k = 0; k < frequency.length; k++) {
    if (frequency[k]! >= from - slack && frequency[k]! <= to + slack) sum += density[k]!;
  }
  return sum * width;
}
