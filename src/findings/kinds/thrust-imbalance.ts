import type { Estimate, MotorEstimate, Pattern, ThrustImbalanceEvidence } from "../../detect/index.ts";
import { capital, measureWords, numberWords, percentWords } from "../../words/index.ts";
import { ALERT_TABLE, highestLevel } from "../alert-levels.ts";
import { CAUTIONS } from "../cautions.ts";
import { imbalanceChecks } from "../imbalance-checks.ts";
import type { FindingContext, FindingKind } from "../kind.ts";

export const thrustImbalanceKind: FindingKind<ThrustImbalanceEvidence> = {
  kind: "thrust-imbalance",
  guide: {
    title: "Load shared unevenly among the motors",
    meaning:
      "In hover all motors should work about equally hard. When they do not, the pattern tells what to look for: one motor that needs more command (a damaged or wrong propeller, a tired motor), one spin direction that works harder (a motor that stands twisted on its arm, propellers of unequal pitch), or a whole side (the centre of gravity).",
    method:
      "Commands in steady flight become thrust demands, (command fraction) to the power of the thrust curve's exponent, or the square of rotor speed where logged. Their means over blocks of a second or more give shares of the total with an interval; slow drifting is led back to zero speed. The shares' centre is the centre of gravity, what one spin direction carries more is a yaw moment that something makes. A weak motor, several, a spin pair, a centre of gravity and a group are weighed by their marginal likelihood beside what aircraft in order show, and so are a spin pair together with a weak motor, a group or a centre of gravity. With a baseline flight the change of the shares is weighed instead, beside what flights of one aircraft differ by; total demands are compared with battery voltage and the masses of the aircraft files allowed for. The loss of a motor, the yaw moment beside it and the tilt of one motor that would make this moment come by generalised least squares: their intervals hold what the second cause and the usual differences among loads in order may take or add, that of the loss without a baseline too. With more than four motors, what is left beside thrust, roll, pitch and yaw is measured too.",
    limits:
      "Four motors give three numbers, so without a baseline some patterns look alike; the finding lists those that it cannot tell apart. A second fault may then hide behind a first: a motor that lost 15 % beside another that leaned by 2 degrees went unnamed in four of ten simulated flights. Wind and drag shift the load as the centre of gravity does; hover in calm air shows it cleanest. Millimetres rest on the motor places of the aircraft file and degrees on its torque ratio. Which motor is tilted the balance does not tell, and a motor that carries more needs less tilt for the same moment: each motor's own tilt is given, the value for whichever motor it is takes the more probable, and its interval spans the probable ones. Of two motors on one arm either would make the same moment and the same side force at the same place. The centre of gravity and the spin bias are where the load lies, and their intervals are of that: without a baseline, motors that differ as those of one batch do (1.5 %) move it by half a percent of an arm's length or so. The tilt is given only where a spin pair is a cause or as likely an answer. Against a baseline the loss of one motor is what these two flights show; flights of one build differ by half a percent a motor besides.",
    sources: [
      "Statics of hover: moments about the centre of gravity add up to nothing",
      "MacKay 2003, chapter 28 (marginal likelihood); Kass and Raftery 1995 (scale of Bayes factors)",
      "Thresholds: common practice",
    ],
    cautions: [CAUTIONS.mechanicalFirst, CAUTIONS.propellers],
  },
  level(evidence, context) {
    const { advisory, caution, warning } = ALERT_TABLE["thrust-imbalance"];
    const sure = evidence.perMotor.excess!.filter(({ low, high }) => low! * high! > 0);
    const largest = Math.max(0, ...sure.map(({ value }) => Math.abs(value)));
    const enough = evidence.isAgainstBaseline ? caution.excessAgainstBaseline : caution.excess;
    const isTold = largest >= advisory.excess;
    // What is told as a hint asks for a look and no more.
    const isFault = !evidence.isUsual;
    const isAtCeiling = isTold && evidence.motors.some((motor) => isAtLimit(motor, context));
    return highestLevel({
      advisory: isTold,
      caution: isFault && largest >= enough,
      warning: isFault && (largest >= warning.excess || isAtCeiling),
    });
  },
  words(evidence, context, level) {
    return {
      summary: summaryOf(evidence, context),
      meaning: [...hintWords(evidence), meaningOf(evidence, context), ...asides(evidence)].join(" "),
      cautions: level === "note" ? [CAUTIONS.mechanicalFirst] : [CAUTIONS.mechanicalFirst, CAUTIONS.flyingAfterFinding],
      next: imbalanceChecks(evidence, context).slice(0, level === "note" ? 1 : undefined),
    };
  },
  top({ pattern, besides, motors, motor, alternatives }) {
    return {
      pattern,
      ...(besides !== undefined && { besides }),
      ...(motor === undefined && motors.length > 0 && { motors: [...motors] }),
      ...(alternatives.length > 0 && { alternatives: [...alternatives] }),
    };
  },
};

/** At its ceiling for long enough to be a caution by itself: a touch at take-off does not count. */
const isAtLimit = (motor: number, { evidence }: FindingContext) =>
  evidence.some((other) => {
    if (other.kind !== "motor-saturation" || other.motor !== motor) return false;
    const { caution } = ALERT_TABLE["motor-saturation"];
    return other.measures.share!.value >= caution.share || other.measures.longest!.value >= caution.longest;
  });

/** Each pattern in a few words, for lists of what may be behind it. */
const PATTERN_WORDS: Record<Pattern, string> = {
  "single-motor": "one weak motor or damaged propeller",
  "several-motors": "several weak motors or damaged propellers",
  "spin-pair": "a twisted motor or unequal propellers of the two spin directions",
  "centre-of-gravity": "a centre of gravity off the middle",
  "motor-group": "motors of one side, end or arm together",
};

const MEANING: Record<Pattern, string> = {
  "single-motor": "One corner needs more command for the same thrust: most often its propeller, then its motor.",
  "several-motors": "More than one motor needs more command for the same thrust.",
  "spin-pair":
    "One spin direction works harder to hold a lasting yaw moment: a motor that stands twisted on its arm, or propellers whose two kinds differ (another pitch, or both of one kind worn).",
  "centre-of-gravity": "The weight does not sit in the middle of the motors, so the near ones carry more of it.",
  "motor-group":
    "Motors that sit together work harder together: what they share (arm, supply, wash of the payload) is suspect.",
};

/** Where no fault by itself is as probable as an aircraft in order, it is no more than a hint. */
function hintWords({ isUsual, isAgainstBaseline }: ThrustImbalanceEvidence): string[] {
  if (!isUsual) return [];
  const order = isAgainstBaseline ? "An aircraft in order, flown twice," : "An aircraft in order";
  return [`${order} explains this as well as any single fault does, so this is a hint and no more.`];
}

function meaningOf(evidence: ThrustImbalanceEvidence, context: FindingContext): string {
  const { pattern, besides, motors } = evidence;
  if (besides === undefined) return MEANING[pattern];
  const hidden =
    pattern === "single-motor" && besides === "spin-pair" && mostLoaded(evidence).motor !== motors[0]
      ? ` It also takes load off ${context.motorName(motors[0]!)}, which is why another motor is asked for most.`
      : "";
  return `No single cause explains the load; one change to the aircraft may have brought both. ${MEANING[pattern]} Besides that: ${uncapital(MEANING[besides])}${hidden}`;
}

const mostLoaded = ({ perMotor }: ThrustImbalanceEvidence): MotorEstimate =>
  [...perMotor.excess!].sort((a, b) => b.value - a.value)[0]!;

const uncapital = (text: string) => text.charAt(0).toLowerCase() + text.slice(1);

function summaryOf(evidence: ThrustImbalanceEvidence, context: FindingContext): string {
  const { besides, motors, perMotor } = evidence;
  if (besides !== undefined) {
    const most = mostLoaded(evidence);
    const causes = causesWords(evidence, besides, context);
    return `Two causes together explain how the load is shared in steady ${whereOf(evidence)}: ${causes.join("; and ")}. ${loadOf(most, evidence, context)}.`;
  }
  const named = motors.length > 0 ? perMotor.excess![motors[0]! - 1]! : mostLoaded(evidence);
  return `${loadOf(named, evidence, context)}, in steady ${whereOf(evidence)}${detailOf(evidence, context)}.`;
}

function loadOf(one: MotorEstimate, { isAgainstBaseline }: ThrustImbalanceEvidence, context: FindingContext): string {
  const compared = isAgainstBaseline ? "than in the baseline flight" : "than the mean of all motors";
  return `${capital(context.motorName(one.motor))} is asked for ${shareWords(one)} ${one.value < 0 ? "less" : "more"} thrust ${compared}`;
}

function causesWords(evidence: ThrustImbalanceEvidence, besides: Pattern, context: FindingContext): string[] {
  const of = evidence.motors.map((motor) => context.motorName(motor)).join(" and ");
  const lost = lostWords(evidence);
  return [evidence.pattern, besides].map((cause) => {
    if (cause === "single-motor") return `${of} pulls less than it should${lost}`;
    return cause === "motor-group" ? `${of} together pull less than they should` : causeWords(evidence, cause);
  });
}

function detailOf(evidence: ThrustImbalanceEvidence, context: FindingContext): string {
  const { pattern, motors } = evidence;
  switch (pattern) {
    case "single-motor":
      return lostWords(evidence);
    case "several-motors":
    case "motor-group":
      return `; ${motors.map((motor) => context.motorName(motor)).join(" and ")} together explain the pattern`;
    default:
      return `; ${causeWords(evidence, pattern)}`;
  }
}

/** `, as if it had lost 12 % of its thrust`; empty where no loss was found. */
function lostWords({ measures: { loss } }: ThrustImbalanceEvidence): string {
  return loss === undefined || loss.value <= 0 ? "" : `, as if it had lost ${lossWords(loss)} of its thrust`;
}

/** A loss that may be none is told by how large it can be. */
const lossWords = (loss: Estimate) =>
  loss.low! > 0 ? measureWords("loss", loss) : `${percentWords(loss.high!)} at most`;

/** A cause that names no motor, with its size. */
const causeWords = (evidence: ThrustImbalanceEvidence, cause: Pattern) =>
  cause === "spin-pair" ? spinWords(evidence) : `the centre of gravity lies ${placeWords(evidence)}`;

const shareWords = (excess: MotorEstimate) => measureWords("excess", sized(excess));

function whereOf({ condition }: ThrustImbalanceEvidence): string {
  if (condition.kind === "flight") return "flight";
  return condition.kind === "hover" ? "hover" : `flight at ${numberWords(condition.speed!, 2)} m/s`;
}

/** A spin pair with its size: of two causes only its own part of the spin bias. */
function spinWords({ besides, measures, isAgainstBaseline }: ThrustImbalanceEvidence): string {
  if (besides !== undefined) {
    const twist = measures.twist ?? measures["spin-bias"]!;
    const [more, less] = spinSides(twist);
    const before = isAgainstBaseline ? " than before" : "";
    return `a lasting yaw moment puts ${measureWords("twist", sized(twist))} more on the ${more} propellers${before} and as much less on the ${less} ones`;
  }
  const bias = measures["spin-bias"]!;
  const [more, less] = spinSides(bias);
  const usual = isAgainstBaseline ? "they did" : "the mean";
  return `the ${more} propellers carry ${percentWords(Math.abs(bias.value))} more than ${usual}, the ${less} ones as much less`;
}

/** Those of a spin bias that carry more, then the others. */
const spinSides = ({ value }: Estimate) =>
  value > 0 ? (["counter-clockwise", "clockwise"] as const) : (["clockwise", "counter-clockwise"] as const);

/** What one cause that is no spin pair leaves of the spin bias. */
function leftWords(twist: Estimate): string {
  const [more, less] = spinSides(twist);
  return `Besides, the ${more} propellers carry ${percentWords(Math.abs(twist.value))} more than this explains, the ${less} ones as much less.`;
}

function placeWords({ measures, isAgainstBaseline }: ThrustImbalanceEvidence): string {
  const [forward, right] = [measures["cg-forward"]!.value, measures["cg-right"]!.value];
  const along = `${millimetres(forward)} ${forward >= 0 ? "forward" : "aft"}`;
  const across = `${millimetres(right)} to the ${right >= 0 ? "right" : "left"}`;
  return `${along} and ${across} of ${isAgainstBaseline ? "where it was" : "the reference point of the aircraft file"}`;
}

const millimetres = (metres: number) => `${numberWords(1000 * Math.abs(metres), 2)} mm`;

/** A smaller spin bias is not worth a sentence. */
const WORTH_A_SENTENCE = 0.02;

/** What else the trims told: a spin bias that the pattern does not explain, wind, and what grows with speed. */
function asides(evidence: ThrustImbalanceEvidence): string[] {
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

/** A smaller change of all motors together says nothing: air density and the state of the pack do as much. */
const LOAD_WORTH_A_SENTENCE = 0.05;

function loadWords({ measures }: ThrustImbalanceEvidence): string[] {
  const { load, "mass-change": mass } = measures;
  if (load === undefined) return [];
  const left = (1 + load.value) / (1 + (mass?.value ?? 0)) - 1;
  const isMuch = Math.abs(left) >= LOAD_WORTH_A_SENTENCE;
  const cause = left > 0 ? "more to carry, thinner air or propellers that pull less" : "less to carry or denser air";
  if (mass === undefined) {
    return isMuch
      ? [`All motors together are asked for ${changeWords(load)} than in the baseline flight: ${cause}.`]
      : [];
  }
  const rest = isMuch
    ? `beyond the masses there is ${cause}`
    : "what the masses leave unexplained is no more than air density and the state of the battery do";
  return [
    `By the masses in the aircraft files this flight needs ${changeWords(mass)} thrust than the baseline; all motors together are asked for ${changeWords(load)}: ${rest}.`,
  ];
}

/** `3.6 % more`. */
const changeWords = ({ value }: Pick<Estimate, "value">) =>
  `${percentWords(Math.abs(value))} ${value < 0 ? "less" : "more"}`;

/** Of the mean share; a smaller one is mixing that rounds its numbers. */
const RESIDUAL_WORTH_A_SENTENCE = 0.02;

function residualWords({ measures: { residual } }: ThrustImbalanceEvidence): string[] {
  if (residual === undefined || residual.low! <= 0 || residual.value < RESIDUAL_WORTH_A_SENTENCE) return [];
  return [
    `Of the sharing ${percentWords(residual.value)} makes neither lift nor moment: some motors work against others, which a damaged motor does not cause but uneven mixing, a motor at a limit or a motor that does not follow does.`,
  ];
}

/**
 * The lean of one motor that would make the yaw moment. Where motors would need unlike leans there is no one number, so
 * each is given with its motors.
 */
function tiltWords({ perMotor, sharedPlaces }: ThrustImbalanceEvidence, tilt: Estimate): string[] {
  const each = perMotor["tilt-by-motor"] ?? [];
  const motors = new Map<string, number[]>();
  for (const { motor, value } of each) {
    const words = `${numberWords(Math.abs(degrees(value)), 2)} deg`;
    motors.set(words, [...(motors.get(words) ?? []), motor]);
  }
  const lean = "One motor that leans sideways, along the circle on which the motors stand,";
  const arms = sharedPlaces.map((place) => listWords(place, "and")).join("; ");
  return [
    motors.size < 2
      ? `${lean} by ${measureWords("tilt", sized(tilt))} would make as much yaw moment; which one, the balance does not tell.`
      : `${lean} would make as much yaw moment. Which one, the balance does not tell, and they would need unlike leans: ${[...motors].map(([words, of]) => `${words} if it is motor ${listWords(of, "or")}`).join(", ")}${giveOrTake(each)}.`,
    ...(arms === ""
      ? []
      : [`Of motors on one arm (${arms}) nothing in steady flight tells which one leans: look at each of them.`]),
  ];
}

const degrees = (angle: number) => (angle * 180) / Math.PI;

/** The widest half of the intervals. */
function giveOrTake(each: readonly MotorEstimate[]): string {
  const half = Math.max(...each.map(({ low, high }) => (high! - low!) / 2));
  return Number.isFinite(half) ? ` (give or take up to ${numberWords(Math.max(0.1, degrees(half)), 1)} deg)` : "";
}

/** `1, 2 or 3`. */
const listWords = (numbers: readonly number[], word: "and" | "or") =>
  numbers.length < 2 ? numbers.join() : `${numbers.slice(0, -1).join(", ")} ${word} ${numbers.at(-1)}`;

/** The size of an estimate, its interval with it. */
function sized(estimate: Estimate): Estimate {
  const { value, unit, low = value, high = value } = estimate;
  const [a, b] = [Math.abs(low), Math.abs(high)];
  return { value: Math.abs(value), unit, low: low * high > 0 ? Math.min(a, b) : 0, high: Math.max(a, b) };
}
