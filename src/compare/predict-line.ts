import { leastSquaresOrNull, studentTQuantile } from "../signal/index.ts";

/** What a straight line through points foretells at one place, with a 90 % interval for what will be seen there. */
export interface Prediction {
  readonly value: number;
  readonly low: number;
  readonly high: number;
  readonly variance: number;
  readonly degreesOfFreedom: number;
  readonly slope: number;
  readonly intercept: number;
}

/** What a curve over speed foretells. */
export interface GrowthPrediction extends Pick<Prediction, "value" | "low" | "high"> {
  /** of the powers 0, 1, 2, ... of speed */
  readonly coefficients: readonly number[];
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
  const fit = leastSquaresOrNull(
    columns,
    Float64Array.from(y, (value, i) => value * roots[i]!),
  );
  if (fit === null) return null;
  const [intercept, slope] = fit.coefficients as unknown as [number, number];
  const { data } = fit.covariance;
  const value = intercept + slope * at;
  const variance =
    data[0]! + 2 * at * data[1]! + at * at * data[3]! + fit.residualVariance / options.weightAt / options.looks;
  const { degreesOfFreedom } = fit;
  return { ...bounded(value, variance, degreesOfFreedom), variance, degreesOfFreedom, slope, intercept };
}

function bounded(value: number, variance: number, degreesOfFreedom: number) {
  const reach = studentTQuantile((1 + FORECAST_LEVEL) / 2, degreesOfFreedom) * Math.sqrt(Math.max(0, variance));
  return { value, low: value - reach, high: value + reach };
}

/**
 * What goes on growing with some power of speed, where nobody knows which: a straight line over each of the powers
 * given, the mean of what they foretell, and how much they differ as a part of its variance.
 *
 * @param speeds m/s of each value
 * @param options powers of speed, besides those of `predictLine`
 * @see Burnham and Anderson 2004, Sociological Methods and Research 33(2):261-304 (variance over several models)
 */
export function predictGrowth(
  speeds: readonly number[],
  values: readonly number[],
  weights: readonly number[],
  at: number,
  options: { powers: readonly number[]; weightAt: number; looks: number },
): GrowthPrediction | null {
  const { powers } = options;
  const lines = powers.map((power) =>
    predictLine(
      speeds.map((speed) => speed ** power),
      values,
      weights,
      at ** power,
      options,
    ),
  );
  if (lines.includes(null)) return null;
  const known = lines as Prediction[];
  const average = (of: (line: Prediction) => number) => known.reduce((sum, line) => sum + of(line), 0) / known.length;
  const value = average((line) => line.value);
  const squares = known.reduce((sum, line) => sum + (line.value - value) ** 2, 0);
  const ofForm = known.length > 1 ? squares / (known.length - 1) : 0;
  const coefficients = Array.from({ length: Math.max(...powers) + 1 }, (_, power) =>
    power === 0
      ? average(({ intercept }) => intercept)
      : known.reduce((sum, { slope }, k) => sum + (powers[k] === power ? slope : 0), 0) / known.length,
  );
  return { ...bounded(value, average(({ variance }) => variance) + ofForm, known[0]!.degreesOfFreedom), coefficients };
}
