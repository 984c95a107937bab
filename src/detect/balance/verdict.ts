import type { Explanation, Pattern } from "./imbalance-patterns.ts";
import type { Weighed } from "./weigh-explanations.ts";

/** What the weighing comes to. */
export interface Verdict {
  /** most probable pattern other than `none`; of two causes together the one that names a motor, or else moves more */
  readonly pattern: Pattern;
  /** the second of two causes together, null where one explains the shift */
  readonly besides: Pattern | null;
  readonly motors: readonly number[];
  /** the most probable explanation of that pattern; its unknowns in the order of its own causes */
  readonly explanation: Explanation;
  /** one cause by itself that is nearly as probable, most probable first */
  readonly alternatives: readonly Pattern[];
  /** two causes together that are nearly as probable, and not only the pattern with something besides */
  readonly alternativePairs: readonly (readonly [Pattern, Pattern])[];
  /** probability of the pattern, with its second cause where it has one */
  readonly confidence: number;
  /** probability that nothing is behind it but what aircraft in order show */
  readonly none: number;
  /** whether that is more probable than the pattern */
  readonly isNone: boolean;
}

/** A pattern ten times less probable than the first counts as told apart ("strong" on the scale of Kass and Raftery). */
const TOLD_APART = 10;

/**
 * Sums the weighed explanations by pattern, names the most probable and lists those that are not told from it.
 * @see Kass & Raftery 1995, J. Am. Stat. Assoc. 90(430):773-795 (the scale of Bayes factors)
 */
export function judge(weighed: readonly Weighed[]): Verdict {
  const kinds = new Map<string, { best: Weighed; probability: number }>();
  let none = 0;
  for (const one of weighed) {
    const { pattern, besides } = one.explanation;
    if (pattern === "none") none += one.probability;
    else {
      const kind = kinds.get(`${pattern} ${besides}`) ?? { best: one, probability: 0 };
      kinds.set(`${pattern} ${besides}`, { ...kind, probability: kind.probability + one.probability });
    }
  }
  const [first, ...others] = [...kinds.values()].sort((a, b) => b.probability - a.probability);
  const { best, probability } = first!;
  const { motors } = best.explanation;
  const causes = causesOf(best.explanation);
  const rivals = others
    .filter((other) => other.probability * TOLD_APART >= probability)
    .map((other) => causesOf(other.best.explanation));
  const isMoreOfTheSame = (rival: readonly Pattern[]) => causes.every((cause) => rival.includes(cause));
  const [pattern, besides = null] = movesMore(best) ? causes : [...causes].reverse();
  return {
    pattern: pattern!,
    besides,
    motors,
    explanation: best.explanation,
    alternatives: rivals.flatMap((rival) => (rival.length === 1 ? rival : [])),
    alternativePairs: rivals.flatMap((rival) =>
      rival.length === 2 && !isMoreOfTheSame(rival) ? [[rival[0]!, rival[1]!] as const] : [],
    ),
    confidence: Math.min(0.99, probability),
    none,
    isNone: none > probability,
  };
}

/** Whether the first cause is the one to name first: it names a motor, or it moves more of the load than the second. */
function movesMore({ explanation: { pattern, besides }, sizes }: Weighed): boolean {
  if (pattern !== "spin-pair" || besides === null) return true;
  return Math.abs(sizes[0]!) >= Math.hypot(...sizes.slice(1));
}

const causesOf = ({ pattern, besides }: Explanation): Pattern[] =>
  besides === null ? [pattern as Pattern] : [pattern as Pattern, besides];
