import { normalCdf } from "../../signal/index.ts";
import type { Layout } from "./load-shares.ts";
import { USUAL_TILT } from "./usual-tilt.ts";

/** Tilt of a motor about its arm, rad. */
export interface Tilt {
  readonly value: number;
  readonly low: number;
  readonly high: number;
}

/** The tilt of one motor, whichever it is, and of each motor if it is this one. */
export interface TiltOfOneMotor extends Tilt {
  /** one per motor; null where no tilt of that motor could */
  readonly ofEach: readonly (Tilt | null)[];
}

/** rad; tilts that differ by less than twice this are one answer: no mount is set nearer by hand (common practice) */
const TOLD_APART = (0.3 * Math.PI) / 180;
/** Half of a 95 % interval of a normal distribution, in standard deviations. */
const HALF_95 = 1.959964;

/**
 * The tangential tilt that one motor needs to make the yaw moment of a spin bias: share x arm x sin(tilt) = -bias x
 * torque ratio, with the share of the weight that this motor really carried, exact but for the cosine of the tilt.
 * Positive where the arm's end is pushed clockwise seen from above, which the clockwise rotors then hold.
 * @param shares thrust of each motor over the total
 * @returns rad, one per motor; NaN where no tilt of that motor could
 */
export function tiltOfEachMotor({ x, y, torqueRatio }: Layout, shares: Float64Array, spinBias: number): Float64Array {
  return shares.map((share, i) => Math.asin((-spinBias * torqueRatio) / (share * Math.hypot(x[i]!, y[i]!))));
}

/**
 * The tilt of one motor, whichever it is. A motor of the spin direction that works harder needs less tilt for the same
 * moment than one of the other, and the balance does not tell which one is tilted. So every motor is weighed by how
 * probable the bias is if it is the one: its tilt is as likely as tilts are, and a motor whose tilt must change much
 * for a little more bias (d tilt / d bias) makes biases near this one more often. The value is where the most
 * probability lies within what counts as one answer; the interval leaves 2.5 % out on either side.
 * @param half of the 95 % interval of the bias
 * @returns null where no tilt of one motor could make the moment
 */
export function tiltOfOneMotor(
  layout: Layout,
  shares: Float64Array,
  spinBias: number,
  half: number,
): TiltOfOneMotor | null {
  const [middle, below, above] = [0, -half, half].map((by) => tiltOfEachMotor(layout, shares, spinBias + by));
  const ofEach = Array.from(middle!, (value, i): Tilt | null => {
    const [low, high] = [Math.min(below![i]!, above![i]!), Math.max(below![i]!, above![i]!)];
    return Number.isNaN(low + high) ? null : { value, low, high };
  });
  const candidates = ofEach.flatMap((tilt, i) =>
    tilt === null ? [] : [{ ...tilt, weight: weightOf(layout, shares, spinBias, i, tilt.value) }],
  );
  if (candidates.length === 0) return null;
  const quantile = quantileOf(candidates);
  return { value: mostProbable(candidates), low: quantile(0.025), high: quantile(0.975), ofEach };
}

interface Candidate extends Tilt {
  readonly weight: number;
}

/**
 * Probability density of the bias if this motor is tilted, up to a factor: exp(-tilt^2 / 2 s^2) |d tilt / d bias|. Its
 * share moves with the bias by as much as it carries in order, so the derivative of bias / share is that of its share
 * without the bias over share^2.
 */
function weightOf(
  { x, y, reaction, healthy }: Layout,
  shares: Float64Array,
  spinBias: number,
  i: number,
  tilt: number,
): number {
  const share = shares[i]!;
  const unbiased = Math.max(0, share - reaction[i]! * healthy[i]! * spinBias);
  const change = unbiased / (share ** 2 * Math.hypot(x[i]!, y[i]!) * Math.cos(tilt));
  return Math.exp(-0.5 * (tilt / USUAL_TILT) ** 2) * change;
}

/** Middle of the most probable group of tilts that count as one answer. */
function mostProbable(candidates: readonly Candidate[]): number {
  const sorted = [...candidates].sort((a, b) => a.value - b.value);
  const groups = sorted.map(({ value: least }) =>
    sorted.filter(({ value }) => value >= least && value <= least + 2 * TOLD_APART),
  );
  const weightOfAll = (group: readonly Candidate[]) => group.reduce((sum, { weight }) => sum + weight, 0);
  const best = groups.reduce((most, group) => (weightOfAll(group) > weightOfAll(most) ? group : most));
  return (best[0]!.value + best.at(-1)!.value) / 2;
}

/** Of the mixture of normal distributions, one for each motor; by bisection. */
function quantileOf(candidates: readonly Candidate[]): (probability: number) => number {
  const total = candidates.reduce((sum, { weight }) => sum + weight, 0);
  const below = (angle: number) =>
    candidates.reduce(
      (sum, { value, low, high, weight }) =>
        sum + (weight / total) * normalCdf((angle - value) / ((angle < value ? value - low : high - value) / HALF_95)),
      0,
    );
  return (probability) => {
    let [from, to] = [
      Math.min(...candidates.map(({ value, low }) => 3 * low - 2 * value)),
      Math.max(...candidates.map(({ value, high }) => 3 * high - 2 * value)),
    ];
    for (let step = 0; step < 60; step++) {
      const middle = (from + to) / 2;
      if (below(middle) < probability) from = middle;
      else to = middle;
    }
    return (from + to) / 2;
  };
}
