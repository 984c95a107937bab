import { requireBetween, requireSamples } from "../checks.ts";
import { zeroCrossings } from "./zero-crossing-regularity.ts";

/**
 * Share of half-periods that resemble the next one of the same sign in both area and duration: above 0.4 the signal
 * oscillates, above 0.8 distinctly. Noise adds zero crossings of its own: smooth the signal first.
 * @param samples n values about zero
 * @param options area and duration: smallest ratio, below 1, that still counts as alike; default 0.6 and 0.75
 * @returns undefined if there are no two half-periods to compare
 * @see Forsman & Stattin 1999, Proc. European Control Conference, Karlsruhe
 */
export function halfPeriodSimilarity(
  samples: Float64Array,
  options: { area?: number; duration?: number } = {},
): number | undefined {
  requireSamples(samples, 4);
  const { area = 0.6, duration = 0.75 } = options;
  requireBetween(area, 0, 1, "area");
  requireBetween(duration, 0, 1, "duration");
  const crossings = zeroCrossings(samples);
  const areas = crossings.slice(1).map((end, i) => {
    let sum = 0;
    for (let k = Math.ceil(crossings[i]!); k < end; k++) sum += Math.abs(samples[k]!);
    return sum;
  });
  const isAlike = (ratio: number, limit: number) => ratio > limit && ratio < 1 / limit;
  let alike = 0;
  const compared = areas.length - 2;
  for (let i = 0; i < compared; i++) {
    const lasted = crossings[i + 1]! - crossings[i]!;
    const nextLasted = crossings[i + 3]! - crossings[i + 2]!;
    if (isAlike(areas[i + 2]! / areas[i]!, area) && isAlike(nextLasted / lasted, duration)) alike++;
  }
  return compared > 0 ? alike / compared : undefined;
}
