import { overlapCorrelation } from "./window-properties.ts";

/**
 * How many independent periodograms the average of overlapping ones is worth, for white noise.
 * @param counts segments in each contiguous stretch; segments of different stretches are independent
 * @param weights the window
 * @param step samples from the start of a segment to the start of the next
 * @see Welch 1967, IEEE Trans. Audio Electroacoust. 15(2):70-73: variance / mean² = (1/K)(1 + 2 sum (1 - j/K) rho_j²)
 */
export function effectiveAverages(counts: readonly number[], weights: Float64Array, step: number): number {
  const squaredCorrelation: number[] = [];
  for (let lag = step; lag < weights.length; lag += step)
    squaredCorrelation.push(overlapCorrelation(weights, lag) ** 2);
  let segments = 0;
  let variance = 0;
  for (const count of counts) {
    segments += count;
    variance += count;
    for (let j = 1; j < count && j <= squaredCorrelation.length; j++) {
      variance += 2 * (count - j) * squaredCorrelation[j - 1]!;
    }
  }
  return segments ** 2 / variance;
}
