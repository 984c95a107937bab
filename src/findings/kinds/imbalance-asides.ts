import type { Estimate, Pattern, ThrustImbalanceEvidence } from "../../detect/index.ts";
import { percentWords, uncapital } from "../../words/index.ts";
import { loadWords } from "./imbalance-load.ts";
import { millimetres, spinSides } from "./imbalance-sizes.ts";
import { tiltWords } from "./imbalance-tilt.ts";

/** Each pattern in a few words, for lists of what may be behind it. */
const PATTERN_WORDS: Record<Pattern, string> = {
  "single-motor": "one weak motor or damaged propeller",
  "several-motors": "several weak motors or damaged propellers",
  "spin-pair": "a twisted motor or unequal propellers of the two spin directions",
  "centre-of-gravity": "a centre of gravity off the middle",
  "motor-group": "motors of one side, end or arm together",
};

/** What one cause that is no spin pair leaves of the spin bias. */
function leftWords(twist: Estimate): string {
  const [more, less] = spinSides(twist);
  return `Besides, the ${more} propellers carry ${percentWords(Math.abs(twist.value))} more than this explains, the ${less} ones as much less.`;
}

/** A smaller spin bias is not worth a sentence. */
const WORTH_A_SENTENCE = 0.02;

/** What else the trims told: a spin bias that the pattern does not explain, wind, and what grows with speed. */
export function imbalanceAsides(evidence: ThrustImbalanceEvidence): string[] {
  const { pattern, besides, measures, alternatives } = evidence;
  const isWorthIt = ({ value, low, high }: Estimate) => low! * high! > 0 && Math.abs(value) >= WORTH_A_SENTENCE;
  const isCause = pattern === "spin-pair" || besides === "spin-pair";
  const bias = measures["spin-bias"]!;
  const isTwisted = isWorthIt(measures.twist ?? bias);
  const texts: string[] = [];
  if (isTwisted && !isCause) texts.push(leftWords(measures.twist ?? bias));
  if (isTwisted && isCause && measures.tilt !== undefined) texts.push(...tiltWords(evidence, measures.tilt));
  const bySpeed = movedWords(evidence, "speed-shift", 1);
  if (bySpeed !== "") {
    texts.push(
      `From hover to the fastest step the load moves ${bySpeed}: that part comes from the air (drag, a boom, a wing), not from the balance.`,
    );
  }
  const byWind = movedWords(evidence, "wind-shift", 2);
  if (byWind !== "") {
    texts.push(
      `Between legs out and back of one speed it moves ${byWind}: that part turns with the leg, so it is wind and not the aircraft.`,
    );
  }
  texts.push(...loadWords(evidence), ...residualWords(evidence));
  const rivals = rivalWords(evidence);
  if (rivals.length > 0) {
    const from = rivals.join(", or ");
    texts.push(
      evidence.isAgainstBaseline
        ? `The two flights do not tell it from ${from}.`
        : `This flight alone does not tell it from ${from}.`,
    );
  }
  if (!isCause && alternatives.includes("spin-pair") && measures.tilt !== undefined && isWorthIt(bias)) {
    const [lean, ...more] = tiltWords(evidence, measures.tilt);
    texts.push(`If it is a twisted motor instead: ${uncapital(lean!)}`, ...more);
  }
  if (measures.loss !== undefined && !evidence.isAgainstBaseline) {
    texts.push(
      "How the load lay before is not known, so the interval of the loss allows for what aircraft in order differ by; a good flight of this aircraft to compare with would narrow it.",
    );
  }
  return texts;
}

/** What else may be behind it: one cause, or two at once. */
function rivalWords({ pattern, besides, alternatives, alternativePairs }: ThrustImbalanceEvidence): string[] {
  const isPart = (cause: Pattern) => besides !== undefined && (cause === pattern || cause === besides);
  return [
    ...alternatives.map((cause) => `${PATTERN_WORDS[cause]}${isPart(cause) ? " by itself" : ""}`),
    ...alternativePairs.map(([a, b]) => `${PATTERN_WORDS[a]} together with ${PATTERN_WORDS[b]}`),
  ];
}

/** Where a shift moves the load, in the directions of which the interval leaves no doubt; empty where in none. */
function movedWords({ measures }: ThrustImbalanceEvidence, name: string, factor: number): string {
  return (["forward", "right"] as const)
    .flatMap((way) => {
      const shift = measures[`${name}-${way}`];
      if (shift === undefined || shift.low! * shift.high! <= 0) return [];
      const words = { forward: ["forward", "aft"], right: ["to the right", "to the left"] }[way];
      return [`${millimetres(factor * shift.value)} ${words[shift.value >= 0 ? 0 : 1]}`];
    })
    .join(" and ");
}

/** Of the mean share; a smaller one is mixing that rounds its numbers. */
const RESIDUAL_WORTH_A_SENTENCE = 0.02;

function residualWords({ measures: { residual } }: ThrustImbalanceEvidence): string[] {
  if (residual === undefined || residual.low! <= 0 || residual.value < RESIDUAL_WORTH_A_SENTENCE) return [];
  return [
    `Of the sharing ${percentWords(residual.value)} makes neither lift nor moment: some motors work against others, which a damaged motor does not cause but uneven mixing, a motor at a limit or a motor that does not follow does.`,
  ];
}
