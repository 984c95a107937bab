import type { Axis } from "../../aircraft/index.ts";
import { normalDensity } from "../../signal/index.ts";
import type { Estimate } from "../evidence.ts";
import type { DriverDecision } from "./decide-driver.ts";
import type { DriveMeasures } from "./drive-measures.ts";
import { pullLikelihoods, type SidePull } from "./side-pull.ts";

/** What moments and energy say of the driver. */
export type Verdict = Pick<DriverDecision, "driver" | "confidence" | "reason">;

/** Probability from which a driver is named. */
const DECIDED = 0.8;
/** No measure of these is ever surer than this. */
const MOST = 0.95;
/** Share of the moment's power that has to go with the motion before its phase means anything. */
const LEAST_COHERENCE = 0.5;
/** rad and natural logarithm of a factor: what aerodynamic damping and an imperfect thrust curve add to the errors */
const MODEL_PHASE = 0.2;
const MODEL_SHARE = 0.15;
/**
 * How a loop that is not unstable answers a push from outside, m / a = -L: of size crossover over frequency, within a
 * factor, and anywhere between a quarter turn behind the motion and in step with it.
 */
const CROSSOVER = { value: 1.5, spread: 0.8 };
const PUSHED_PHASE = [-1.9, 0.1] as const;
/** A load that hangs below: the motors hold it up against the load's pull, many times what the motion itself takes. */
const COUPLED_SHARE = { value: 9, spread: 0.6 };
/** The same where the pull of the load itself is felt, so that light loads and fast swings may be told as well. */
const FELT_SHARE = { value: 5, spread: 0.9 };
/**
 * An airframe that its own aerodynamics tip over, a long boom ahead say: the motors hold it against a moment that goes
 * with the angle, so their moment is in step with the motion as a loop that drives itself has it, and up to so many
 * times as large. Fewer than one in three aircraft are like that (a guess).
 */
const MOST_HELD = 10;
const HELD_PRIOR = 0.3;
/** How often a swing that drives itself grows while it is seen, and one that is pushed from outside (guesses). */
const GROWS = { itself: 0.8, pushed: 0.25 };
/** Hz; loads on lines swing no faster, and do not swing about the vertical at all */
const FASTEST_LOAD = 1.2;
/**
 * How often a push from outside moves the outermost set point about as far as the aircraft, against a loop that drives
 * itself: in none of sixty simulated flights with a push did the aircraft move less than twice as far.
 */
const SETPOINT_MOVES = 0.1;

/**
 * Weighs three explanations of the ratio m / a against one another (Bayes, alike at the start): the loop drives itself
 * (ratio 1, where the loop gain is -1), something outside pushes (the ratio is that of a working loop), or a load swings
 * along. Energy flow is the sine of the ratio's phase, moment balance its size. Unknown size: its phase alone speaks,
 * and can tell a brake from a drive, not a drive from a bystander.
 *
 * A pull from the side, where it can be felt, speaks for or against the load by itself.
 *
 * @param isAsked whether the outermost set point moves along by about as much as the axis
 * @param isGrowing whether it grew while it was seen
 */
export function weighDriver(
  axis: Axis,
  drive: Pick<DriveMeasures, "phase" | "share" | "coherence"> | null,
  frequency: number,
  isAsked: boolean,
  isGrowing: boolean,
  pull: SidePull | null = null,
): Verdict {
  const mayBeLoad = axis !== "yaw" && frequency <= FASTEST_LOAD;
  const felt = pull === null || !mayBeLoad ? null : pullLikelihoods(pull, frequency);
  if (felt !== null && (drive === null || drive.coherence < LEAST_COHERENCE)) {
    const probability = felt.load / (felt.load + felt.none);
    if (probability >= DECIDED)
      return { driver: "coupled", confidence: Math.min(MOST, probability), reason: "side-pull" };
  }
  if (drive === null) return undetermined("no-moment");
  const { phase, share, coherence } = drive;
  if (coherence < LEAST_COHERENCE) {
    // Motors that do not take part cannot have made the motion, if their moment could be seen at all.
    return share !== null && share.high! < 0.5 ? named("external", 0.8, drive) : undetermined("moment-incoherent");
  }
  const phaseError = Math.hypot(deviationOf(phase), MODEL_PHASE);
  const own = normal(phase.value, phaseError);
  const pushed = uniform(phase.value, PUSHED_PHASE, phaseError);
  if (share === null) {
    const braking = pushed / (pushed + own + 1e-12);
    return braking >= DECIDED && phase.value < 0
      ? named("external", braking, drive)
      : undetermined("intervals-too-wide");
  }
  const size = Math.log(Math.max(share.value, 1e-9));
  const shareError = Math.hypot(Math.log(share.high! / share.low!) / (2 * 1.96), MODEL_SHARE);
  const at = (middle: number, spread: number) => normal(size - Math.log(middle), Math.hypot(spread, shareError));
  const load = felt === null ? COUPLED_SHARE : FELT_SHARE;
  const grows = (often: number) => 2 * (isGrowing ? often : 1 - often);
  const held = between(size, Math.log(MOST_HELD), shareError) * HELD_PRIOR * grows(GROWS.itself);
  const alone = at(1, 0);
  const none = felt?.none ?? 1;
  const push = at(CROSSOVER.value / frequency, CROSSOVER.spread) * (isAsked ? SETPOINT_MOVES : 1);
  const weights = {
    controller: own * (alone + held) * none,
    external: pushed * push * grows(GROWS.pushed) * none,
    coupled: !mayBeLoad ? 0 : (at(load.value, load.spread) / (2 * Math.PI)) * (felt?.load ?? 1),
  };
  const total = weights.controller + weights.external + weights.coupled + 1e-12;
  for (const driver of ["controller", "external", "coupled"] as const) {
    const probability = weights[driver] / total;
    if (probability < DECIDED) continue;
    const verdict = named(driver, probability, drive, felt !== null);
    return driver === "controller" && held > alone ? { ...verdict, reason: "held-against" } : verdict;
  }
  return undetermined("intervals-too-wide");
}

function named(
  driver: "controller" | "external" | "coupled",
  probability: number,
  { phase }: Pick<DriveMeasures, "phase">,
  isFelt = false,
): Verdict {
  const confidence = Math.min(MOST, probability);
  if (driver === "coupled") return { driver, confidence, reason: isFelt ? "side-pull" : "both-parts" };
  const isBraking = driver === "external" && phase.high! < 0;
  return { driver, confidence, reason: isBraking ? "energy-flow" : "moment-balance" };
}

const undetermined = (reason: DriverDecision["reason"]): Verdict => ({ driver: "undetermined", confidence: 0, reason });

const deviationOf = ({ low, high }: Estimate) => (high! - low!) / (2 * 1.96);

const normal = (x: number, deviation: number) => normalDensity(x / deviation) / deviation;

/** A uniform density from 0 to the top, its edges blurred by an error. */
const between = (x: number, top: number, deviation: number) => uniform(x, [0, top], deviation);

/** A uniform density, its edges blurred by an error. */
function uniform(x: number, [low, high]: readonly [number, number], deviation: number): number {
  const edge = (distance: number) => 1 / (1 + Math.exp((-1.7 * distance) / deviation));
  return (edge(x - low) * edge(high - x)) / (high - low);
}
