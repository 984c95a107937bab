import { leastSquares, matrixOfColumns, SingularMatrixError, studentTQuantile } from "../signal/index.ts";

/** What a straight line through points foretells at one place, with a 90 % interval for what will be seen there. */
export interface Prediction {
  readonly value: number;
  readonly low: number;
  readonly high: number;
  readonly slope: number;
  readonly intercept: number;
}

export const FORECAST_LEVEL = 0.9;
/** A line through fewer places says nothing about its own error. */
const FEWEST_PLACES = 3;

/**
 * Weighted least squares of y on x, and the interval that holds the mean of `looks` further values at `at` (Student's t
 * with n - 2).
 * @param weights inverse to each point's variance, up to a factor; the new values have the weight `weightAt`
 * @returns null for fewer than three different x, or less than two degrees of freedom
 * @see Draper and Smith, Applied Regression Analysis, sections 1.4 and 2.11
 */
export function predictLine(
  x: readonly number[],
  y: readonly number[],
  weights: readonly number[],
  at: number,
  options: { weightAt: number; looks: number },
): Prediction | null {
  const places = new Set(x.map((value) => value.toPrecision(3))).size;
  if (places < FEWEST_PLACES || x.length < FEWEST_PLACES + 1) return null;
  const roots = weights.map(Math.sqrt);
  const columns = [Float64Array.from(roots), Float64Array.from(x, (value, i) => value * roots[i]!)];
  try {
    const fit = leastSquares(
      matrixOfColumns(columns),
      Float64Array.from(y, (value, i) => value * roots[i]!),
    );
    const [intercept, slope] = fit.coefficients as unknown as [number, number];
    const { data } = fit.covariance;
    const value = intercept + slope * at;
    const variance =
      data[0]! + 2 * at * data[1]! + at * at * data[3]! + fit.residualVariance / options.weightAt / options.looks;
    const reach = studentTQuantile((1 + FORECAST_LEVEL) / 2, fit.degreesOfFreedom) * Math.sqrt(Math.max(0, variance));
    return { value, low: value - reach, high: value + reach, slope, intercept };
  } catch (cause) {
    if (cause instanceof SingularMatrixError) return null;
    throw cause;
  }
}
