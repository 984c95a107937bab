import type { ModeMeasures } from "./mode-measures.ts";

/** Fewest cycles of an oscillation, and of one that grows (the contract). */
const CYCLES = 5;
const CYCLES_GROWING = 3;
/** s; what is over sooner is a knock, however fast it rings */
const SHORTEST = 0.5;
/** Fewest cycles of some size, unless it grows: fewer are a knock that rings. */
const CYCLES_STRONG = 3;
const SHARE_STRONG = 0.2;
/** Periodicity from which motion counts as a wave: higher for a few cycles, which chance can line up. */
const LEAST_PERIODICITY = 0.55;
const PERIODICITY_OF_FEW = 0.6;

/** Whether a measured mode lasts, and repeats itself as a wave does and noise through a damped loop does not. */
export function isOscillation({ start, end, cycles, strongCycles, trend, periodicity }: ModeMeasures): boolean {
  if (end - start < SHORTEST) return false;
  const fewest = trend.trend === "growing" ? CYCLES_GROWING : CYCLES;
  if (cycles < fewest || (trend.trend !== "growing" && strongCycles < Math.max(CYCLES_STRONG, SHARE_STRONG * cycles)))
    return false;
  return periodicity >= LEAST_PERIODICITY + PERIODICITY_OF_FEW / cycles;
}

/**
 * Estimated probability that a detected oscillation is one: from its regularity, its length, and other channels that
 * show it.
 */
export function oscillationConfidence({ cycles, periodicity }: ModeMeasures, witnesses: number): number {
  const margin = periodicity - LEAST_PERIODICITY - PERIODICITY_OF_FEW / cycles;
  const odds = 0.4 + 4 * margin + 0.8 * Math.log(cycles / 4) + 1.2 * witnesses;
  return Math.min(0.99, 1 / (1 + Math.exp(-odds)));
}
