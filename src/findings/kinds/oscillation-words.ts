import type { OscillationEvidence } from "../../detect/index.ts";
import { capital, measureWords, numberWords, secondsWords } from "../../words/index.ts";
import type { AlertLevel } from "../finding.ts";
import type { FindingContext } from "../kind.ts";

/** What happened, when, how large, how it changed, what drove it. */
export function oscillationSummary(evidence: OscillationEvidence, context: FindingContext): string {
  const { axis, measures, start, end, driver } = evidence;
  const { frequency, amplitude, angle, cycles } = measures;
  const since =
    measures.onset!.low === undefined
      ? `from the first sample looked at (${secondsWords(start)}) to ${secondsWords(end)}`
      : `from ${secondsWords(start)} to ${secondsWords(end)}`;
  const size = `by up to ${measureWords("amplitude", amplitude!)} (${measureWords("angle", angle!)})`;
  return `${capital(axis)} oscillated at ${measureWords("frequency", frequency!)} ${size} for ${numberWords(cycles!.value, 2)} cycles, ${since}. ${[onsetWords(evidence, context), trendWords(evidence), DRIVERS[driver](evidence), spreadWords(evidence, context)].filter(Boolean).join(" ")}`;
}

/** In which phase it began, and after what. */
function onsetWords({ measures, after, phase }: OscillationEvidence, context: FindingContext): string {
  const where = phase === null || phase.kind === "unknown" ? "" : ` in ${context.phaseName(phase)}`;
  if (measures.onset!.low === undefined) return "";
  if (after === null) return where === "" ? "" : `It began${where}.`;
  const motor = after.motor === undefined ? "" : context.motorName(after.motor);
  const what = {
    "motor-ceiling": `${motor} reached its ceiling`,
    "motor-floor": `${motor} came down to its floor`,
    "set-point-step": "a step of the attitude set point",
    "mode-change": "a change of flight mode",
    gap: "a gap in the data",
  }[after.kind];
  return `It began${where}, ${secondsWords(after.before)} after ${what}.`;
}

/** Other axes and frequencies that took part. */
function spreadWords(evidence: OscillationEvidence, context: FindingContext): string {
  const {
    measures: { axisLag },
    harmonics,
    otherModes,
  } = evidence;
  const words: string[] = [];
  if (axisLag !== undefined) {
    const degrees = (rad: number) => numberWords((rad * 180) / Math.PI, 2);
    const size = degrees(Math.abs(axisLag.value));
    words.push(
      `It swings with ${leaderOf(evidence, context)}, which had it first, ${size} deg of a cycle ${axisLag.value >= 0 ? "behind" : "ahead of"} it (give or take ${degrees((axisLag.high! - axisLag.low!) / 2)} deg).`,
    );
  }
  if (harmonics.length > 0)
    words.push(
      `Its ${harmonics.map((n) => `${n}-fold`).join(" and ")} frequency shows as well, as it does where something comes to a stop in every cycle.`,
    );
  if (otherModes.length > 0)
    words.push(`Another swing went on at ${otherModes.map((hertz) => `${numberWords(hertz, 2)} Hz`).join(" and ")}.`);
  return words.join(" ");
}

/** The axis of the same event that swung first. */
function leaderOf({ group }: OscillationEvidence, { evidence }: FindingContext): string {
  const leader = evidence.find((one) => one.kind === "oscillation" && one.group === group && one.leads);
  return leader?.axis ?? "another axis";
}

function trendWords({ trend, measures: { growth }, fit }: OscillationEvidence): string {
  const rate = growth!.value;
  const seconds = secondsWords(Math.LN2 / Math.abs(rate));
  if (trend === "growing") return `It grew, doubling every ${seconds} from ${secondsWords(fit.start)} on.`;
  if (trend === "decaying") return `It died away, halving every ${seconds}.`;
  return "It neither grew nor died away.";
}

type Telling = (evidence: OscillationEvidence) => string;

const LOOP_WORDS = {
  rate: "rate loop",
  attitude: "attitude loop",
  velocity: "loop outside the attitude loop",
} as const;

const DRIVERS: Readonly<Record<OscillationEvidence["driver"], Telling>> = {
  commanded: () => "The set point held the same motion and the axis followed it: this was asked for.",
  controller: (evidence) =>
    evidence.decision.reason === "held-against"
      ? `The motors pushed ${numberWords(evidence.decision.drive!.share!.value, 2)} times as hard as the motion alone takes, in step with it: they held the aircraft against a moment that tips it further the more it tilts, as the air's on a boom can, and the control loop that does so drives the swing: ${loopWords(evidence)}.`
      : `The motors account for the motion and take no energy out of it, so the control loop drives it: ${loopWords(evidence)}.`,
  external: ({ decision }) =>
    decision.reason === "energy-flow"
      ? "The motors worked against the motion in every cycle, so something outside the control loop drove it."
      : "The motors' moments are too small for the motion, so something outside the control loop drove it.",
  coupled: ({ decision: { reason, pull } }) =>
    reason === "side-pull"
      ? `Something pulled the aircraft sideways in step with the swing, at ${numberWords(pull!.size.value, 2)} times gravity times the angle of the swing, as a load on a line does and air alone does not.`
      : "The motors and something that swings with the aircraft made the motion together.",
  undetermined: ({ decision }) =>
    ({
      "order-or-loop":
        "The set point swung as well and the axis followed it late: that is either an order or a loop outside the one that is logged.",
      "no-moment": "Neither motor commands nor a controller output are logged, so what drove it cannot be told.",
      "moment-incoherent": "The commanded moment did not move along steadily enough to tell what drove it.",
    })[decision.reason as string] ??
    "What drove it cannot be told from this log: the measures leave more than one answer.",
};

/** Whether a set point that was logged and moved tells which loop it is; where none does the loop is a guess. */
export function isLoopTold({ loop, rateResponse, attitudeResponse }: OscillationEvidence["decision"]): boolean {
  return (loop === "rate" ? rateResponse : attitudeResponse) !== null;
}

function loopWords({ decision }: OscillationEvidence): string {
  const { loop } = decision;
  const response = loop === "rate" ? decision.rateResponse : decision.attitudeResponse;
  if (response === null)
    return loop === "rate"
      ? "no logged set point tells which of its loops it is"
      : `the ${LOOP_WORDS[loop]} or one outside it, since the rate follows its own set point`;
  const lag = numberWords((response.lag * 180) / Math.PI, 2);
  const gain = numberWords(response.gain, 2);
  return loop === "velocity"
    ? `the ${LOOP_WORDS[loop]}, since the attitude set point swings as well and the attitude follows it at ${gain} times its size, ${lag} deg late, more than a loop around it can bear`
    : response.coherence < 0.5 || response.gain > 20
      ? `the ${LOOP_WORDS[loop]}, since that loop's set point hardly moves along`
      : `the ${LOOP_WORDS[loop]}, since the axis swings ${gain} times as far as that loop's set point`;
}

/** Why it matters. */
export function oscillationMeaning(evidence: OscillationEvidence, level: AlertLevel, endsInUpset: boolean): string {
  if (evidence.driver === "commanded")
    return "An axis that does what it is told is no fault; look at who or what moved the set point if nobody meant to.";
  const parts = [
    evidence.trend === "growing"
      ? "A swing that grows has no margin left: it ends where motors reach their limits, or with the flight."
      : level === "advisory"
        ? "It stands out from the calm of this flight but stayed small."
        : "A swing of this size uses up the control that gusts and turns need.",
    ...(endsInUpset ? ["It ended in an upset."] : []),
    ...(evidence.atLimit ? ["A motor was at a limit while it lasted."] : []),
    ...(evidence.witnesses.length === 0 ? ["Only one channel shows it, so take it for a suspicion."] : []),
    ...(evidence.rotorAlias ? [aliasWords(evidence.rotorAlias)] : []),
    ...(evidence.mayBeAlias
      ? ["It is so fast for the log's rate that it may be the image of a faster vibration; log faster to tell."]
      : []),
  ];
  return parts.join(" ");
}

const TIMES: Readonly<Record<number, string>> = { 1: "once", 2: "twice" };

function aliasWords({ motor, harmonic, frequency, rate }: NonNullable<OscillationEvidence["rotorAlias"]>): string {
  return `It may be no motion of this frequency at all: motor ${motor} shakes the aircraft ${TIMES[harmonic] ?? `${harmonic} times`} a turn at ${numberWords(frequency)} Hz, which a log of ${numberWords(rate)} rows a second without a filter before it shows at just this frequency. No later filter can undo that.`;
}

const LOOSENESS =
  "With the battery disconnected, look for looseness: arms, motor mounts, propellers, landing gear, the flight controller's own mount.";
const PAYLOAD = "Check the payload: weight, how stiffly it is held, anything that hangs or swings below the aircraft.";

/** What to check next, in order: mechanics, payload, and gains last. */
export function oscillationNext({ driver, decision, mayBeAlias, rotorAlias, measures }: OscillationEvidence): string[] {
  const { loop } = decision;
  if (driver === "commanded")
    return ["Find out what moved the set point: a pilot, a test signal, or a loop outside the log."];
  const frequency = measureWords("frequency", { ...measures.frequency!, low: undefined, high: undefined });
  const gains =
    driver === "external" || driver === "coupled"
      ? "Leave the gains alone until the cause outside is found and mended."
      : decision.reason === "held-against"
        ? "Take off or shorten what the air can push round (a boom, a cover), or fly slower, before any gain: too much gain or delay lets such a swing grow, too little no longer holds the aircraft."
        : driver === "controller"
          ? loop === "velocity"
            ? "Only then lower the gain of the loop that makes the attitude set point (velocity or position), a little at a time, or quicken the attitude loop inside it."
            : isLoopTold(decision)
              ? `Only then lower the gain of the ${LOOP_WORDS[loop]} on this axis, a little at a time; more delay or filtering in the loop calls for less gain.`
              : "Only then lower the gains of this axis, a little at a time, the innermost loop's first; log the set points of its loops, so that the one can be told."
          : "Only then consider gains, downward first, a little at a time.";
  return [
    LOOSENESS,
    PAYLOAD,
    ...(driver === "external"
      ? [
          `Look for what can swing or shed eddies at ${frequency}: a load on a line, a boom, an antenna, a cover, a propeller.`,
        ]
      : []),
    ...(driver === "undetermined"
      ? [
          measures.energy === undefined
            ? "Log motor commands, rates and set points at 100 Hz or more, and give the aircraft file, so that the driver can be told."
            : "Compare with an earlier flight without this payload at the same speed: if the motion is absent there, the payload or the air about it drives it; if it is there too, the loop does.",
        ]
      : []),
    ...(mayBeAlias || rotorAlias ? ["Log this axis at a higher rate and compare the frequency."] : []),
    gains,
  ];
}
