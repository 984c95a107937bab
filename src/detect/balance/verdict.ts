import type { Pattern, Shift } from "./imbalance-patterns.ts";
import type { Weighed } from "./weigh-explanations.ts";

/** What the weighing comes to. */
export interface Verdict {
  /** most probable pattern other than `none` */
  readonly pattern: Pattern;
  readonly motors: readonly number[];
  /** shift per unit of its first unknown; null where the pattern names no motor */
  readonly direction: Shift | null;
  /** patterns nearly as probable, most probable first */
  readonly alternatives: readonly Pattern[];
  /** probability of the pattern */
  readonly confidence: number;
  /** whether no explanation beats what aircraft in order show */
  readonly isNone: boolean;
}

/** A pattern ten times less probable than the first counts as told apart ("strong" on the scale of Kass and Raftery). */
const TOLD_APART = 10;

/**
 * Sums the weighed explanations by pattern, names the most probable and lists those that are not told from it.
 * @see Kass & Raftery 1995, J. Am. Stat. Assoc. 90(430):773-795 (the scale of Bayes factors)
 */
export function judge(weighed: readonly Weighed[]): Verdict {
  const probabilities = new Map<Pattern, number>();
  let none = 0;
  for (const { explanation, probability } of weighed) {
    if (explanation.pattern === "none") none += probability;
    else probabilities.set(explanation.pattern, (probabilities.get(explanation.pattern) ?? 0) + probability);
  }
  const ranked = [...probabilities].sort((a, b) => b[1] - a[1]);
  const [pattern, probability] = ranked[0]!;
  const best = weighed.find(({ explanation }) => explanation.pattern === pattern)!.explanation;
  return {
    pattern,
    motors: best.motors,
    direction: best.motors.length > 0 ? best.directions[0]! : null,
    alternatives: ranked.slice(1).flatMap(([other, p]) => (p * TOLD_APART >= probability ? [other] : [])),
    confidence: Math.min(0.99, probability),
    isNone: none > probability,
  };
}
