import type { Layout } from "./load-shares.ts";
import { USUAL_TILT } from "./usual-tilt.ts";

/** Tilt of a motor about its arm, rad. */
export interface Tilt {
  readonly value: number;
  readonly low: number;
  readonly high: number;
}

/** Motors that together are less probable than this do not widen the interval. */
const LEFT_OUT = 0.05;

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
 * moment than one of the other, and the balance does not tell which one is tilted. The value is the geometric
 * mean over all motors, each as probable as its tilt is usual; the interval spans those that are probable.
 * @param half of the 95 % interval of the bias
 * @returns null where no tilt of one motor could make the moment
 */
export function tiltOfOneMotor(layout: Layout, shares: Float64Array, spinBias: number, half: number): Tilt | null {
  const [middle, below, above] = [0, -half, half].map((by) => tiltOfEachMotor(layout, shares, spinBias + by));
  const candidates = Array.from(middle!, (value, i) => ({
    value,
    low: Math.min(below![i]!, above![i]!),
    high: Math.max(below![i]!, above![i]!),
    weight: Math.exp(-0.5 * (value / USUAL_TILT) ** 2),
  })).filter(({ low, high }) => !Number.isNaN(low + high));
  const total = candidates.reduce((sum, { weight }) => sum + weight, 0);
  if (!(total > 0)) return null;
  const logarithm = candidates.reduce((sum, { value, weight }) => sum + weight * Math.log(Math.abs(value)), 0) / total;
  let rest = LEFT_OUT * total;
  const probable = candidates
    .sort((a, b) => a.weight - b.weight)
    .filter(({ weight }) => {
      rest -= weight;
      return rest < 0;
    });
  return {
    value: Math.sign(middle![0]!) * Math.exp(logarithm),
    low: Math.min(...probable.map(({ low }) => low)),
    high: Math.max(...probable.map(({ high }) => high)),
  };
}
