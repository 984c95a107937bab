import { requireFinite } from "../checks.ts";

/**
 * p values adjusted so that the chance of any false alarm among them all stays at the level chosen (Holm's steps).
 * @returns in the order given
 * @see Holm 1979, Scand. J. Stat. 6(2):65-70
 */
export function holm(pValues: Float64Array): Float64Array {
  const order = risingOrder(pValues);
  const adjusted = new Float64Array(pValues.length);
  let highest = 0;
  for (const [rank, index] of order.entries()) {
    highest = Math.max(highest, Math.min(1, (pValues.length - rank) * pValues[index]!));
    adjusted[index] = highest;
  }
  return adjusted;
}

/**
 * p values adjusted so that the expected share of false alarms among the alarms stays at the level chosen.
 * @returns in the order given
 * @see Benjamini & Hochberg 1995, J. R. Stat. Soc. B 57(1):289-300
 */
export function benjaminiHochberg(pValues: Float64Array): Float64Array {
  const order = risingOrder(pValues);
  const adjusted = new Float64Array(pValues.length);
  let lowest = 1;
  for (let rank = order.length; rank >= 1; rank--) {
    const index = order[rank - 1]!;
    lowest = Math.min(lowest, (pValues.length * pValues[index]!) / rank);
    adjusted[index] = lowest;
  }
  return adjusted;
}

function risingOrder(values: Float64Array): number[] {
  requireFinite(values, "pValues");
  return Array.from(values.keys()).sort((a, b) => values[a]! - values[b]!);
}
