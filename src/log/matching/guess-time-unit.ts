import type { ColumnFacts } from "./column-facts.ts";

const UNITS = [
  ["s", 1],
  ["ms", 1e-3],
  ["us", 1e-6],
  ["ns", 1e-9],
] as const;

/** Hz; logs with fewer or more rows a second are rare */
const PLAUSIBLE = { slowest: 2, fastest: 10_000 };

/**
 * Guesses the unit of time stamps from their spacing: of s, ms, us and ns the first that gives a plausible rate.
 * @returns the rate, in Hz, that the guess stands for
 */
export function guessTimeUnit({ step, min, max, count }: ColumnFacts): {
  unit: string;
  confidence: number;
  rate: number;
} {
  const spacing = step > 0 ? step : (max - min) / Math.max(count - 1, 1);
  const rates = UNITS.map(([unit, seconds]) => ({ unit, rate: spacing > 0 ? 1 / (spacing * seconds) : 0 }));
  const plausible = rates.filter(({ rate }) => rate >= PLAUSIBLE.slowest && rate <= PLAUSIBLE.fastest);
  const [first] = plausible;
  if (first === undefined) return { ...rates[0]!, confidence: 0.3 };
  return { ...first, confidence: plausible.length === 1 ? 0.9 : 0.6 };
}
