import { matrix, matrixOfColumns, multiply, pseudoInverse, studentTQuantile, transpose } from "../../signal/index.ts";
import type { Estimate, MotorEstimate } from "../evidence.ts";
import type { Layout } from "./load-shares.ts";
import type { MeanShares } from "./mean-shares.ts";

/** What of the sharing makes neither thrust nor a moment. */
export interface ResidualPattern {
  /** root mean square over the motors, each over its share in order; what chance gives is taken off */
  readonly size: Estimate;
  /** each motor's share beyond the least demands that make the same thrust and moments, over its share in order */
  readonly motors: readonly MotorEstimate[];
}

/**
 * With more than four motors the same thrust and moments can be shared in many ways. The least demands (by sum of
 * squares) are what a balanced mixing asks for; what a flight shows beside them is work of motors against each other.
 * @returns null for four motors or less, where nothing is left over
 */
export function residualPattern(
  layout: Layout,
  { shares, covariance, degreesOfFreedom }: MeanShares,
): ResidualPattern | null {
  const { motors, x, y, reaction, maxThrust, healthy } = layout;
  if (motors <= 4) return null;
  // Rows: thrust, its place forward and right, and spin, per demand of each motor.
  const perDemand = [x, y, reaction].map((levers) => levers.map((lever, i) => lever * maxThrust[i]!));
  const effect = transpose(matrixOfColumns([maxThrust, ...perDemand]));
  const kept = multiply(pseudoInverse(effect), effect);
  // Shares to residual, both over the healthy share: demands are shares over the largest thrust.
  const left = matrix(
    motors,
    motors,
    new Float64Array(motors * motors).map((_, at) => {
      const [i, j] = [Math.floor(at / motors), at % motors];
      return (((i === j ? 1 : 0) - kept.data[at]!) * maxThrust[i]!) / maxThrust[j]! / healthy[i]!;
    }),
  );
  const values = multiply(left, matrix(motors, 1, shares)).data;
  const spread = multiply(multiply(left, covariance), transpose(left)).data;
  const half = studentTQuantile(0.975, degreesOfFreedom);
  const variances = Array.from(values, (_, i) => Math.max(0, spread[i * (motors + 1)]!));
  const chance = variances.reduce((sum, variance) => sum + variance, 0) / motors;
  const square = values.reduce((sum, value) => sum + value * value, 0) / motors;
  const bound = (by: number) => Math.sqrt(Math.max(0, square - chance + by));
  // Of a sum of squares about a true size s: variance 4 s^2 times that of one value, over their number.
  const reach = half * Math.sqrt((4 * Math.max(0, square - chance) * chance) / motors + (2 * chance * chance) / motors);
  return {
    size: { value: bound(0), unit: "1", low: bound(-reach), high: bound(reach) },
    motors: Array.from(values, (value, i) => {
      const wide = half * Math.sqrt(variances[i]!);
      return { motor: i + 1, value, unit: "1", low: value - wide, high: value + wide };
    }),
  };
}
