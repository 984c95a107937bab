import { studentTQuantile } from "../signal/index.ts";

/** Thrust that one motor had left in one steady stretch of flight. */
export interface HeadroomPoint {
  /** m/s, 0 for hover */
  readonly speed: number;
  /** number of the speed step, null for hover */
  readonly step: number | null;
  /** share of the motor's largest thrust, to its ceiling and to its floor: 99th and 1st percentile of the stretch */
  readonly above: number;
  readonly below: number;
}

/** The speed at which a motor would meet a limit if its headroom goes on as flown. */
export interface HeadroomForecast {
  readonly limit: "ceiling" | "floor";
  /** m/s, with a 90 % interval; `high` is absent where the data sets no bound inside the stated range */
  readonly speed: number;
  readonly low: number;
  readonly high?: number;
  /** m/s, the fastest step flown and the speed up to which a forecast is given */
  readonly flown: number;
  readonly range: number;
  /** headroom = intercept + slope x speed^2 */
  readonly intercept: number;
  readonly slope: number;
}

/** A forecast reaches this far beyond the fastest step flown: 1.5 times the speed is 2.25 times the air's moments. */
export const FORECAST_RANGE = 1.5;
export const FORECAST_LEVEL = 0.9;
/** A line through fewer speeds says nothing about its own error. */
const FEWEST_SPEEDS = 3;

/**
 * Forecasts the speed at which a motor's headroom comes to zero. Drag and the moments of the air go with the square of
 * speed, so headroom in thrust is a straight line over speed squared, fitted by least squares to the steady stretches.
 * The interval holds every speed at which one more stretch might show no headroom left (Student's t; Fieller's theorem
 * for the root of a line).
 *
 * @returns null where headroom does not shrink beyond doubt, or reaches zero outside the stated range
 * @see Fieller 1954, J. R. Stat. Soc. B 16(2):175-185; Draper and Smith, Applied Regression Analysis, section 3.2
 */
export function forecastHeadroom(
  points: readonly HeadroomPoint[],
  limit: "ceiling" | "floor",
): HeadroomForecast | null {
  const count = points.length;
  const steps = new Set(points.map(({ step }) => step));
  if (steps.size < FEWEST_SPEEDS || count < FEWEST_SPEEDS + 1) return null;
  const x = points.map(({ speed }) => speed * speed);
  const y = points.map(({ above, below }) => (limit === "ceiling" ? above : below));
  const flown = Math.max(...points.map(({ speed }) => speed));
  const range = FORECAST_RANGE * flown;
  const meanX = x.reduce((sum, value) => sum + value, 0) / count;
  const meanY = y.reduce((sum, value) => sum + value, 0) / count;
  const spread = x.reduce((sum, value) => sum + (value - meanX) ** 2, 0);
  const slope = x.reduce((sum, value, i) => sum + (value - meanX) * (y[i]! - meanY), 0) / spread;
  const intercept = meanY - slope * meanX;
  if (!(slope < 0)) return null;
  const squares = x.reduce((sum, value, i) => sum + (y[i]! - intercept - slope * value) ** 2, 0);
  const variance = squares / (count - 2);
  const t = studentTQuantile((1 + FORECAST_LEVEL) / 2, count - 2);
  const root = -intercept / slope;
  if (!(root > 0) || root > range ** 2) return null;
  // |intercept + slope u| <= t s sqrt(1 + 1/n + (u - mean)^2 / spread): a quadratic in v = u - mean.
  const noise = t * t * variance;
  const a = slope * slope - noise / spread;
  if (!(a > 0)) return null;
  const centre = (-meanY * slope) / a;
  const width = Math.sqrt(Math.max(0, centre ** 2 - (meanY * meanY - noise * (1 + 1 / count)) / a));
  const low = Math.sqrt(Math.max(0, meanX + centre - width));
  const high = Math.sqrt(Math.max(0, meanX + centre + width));
  return {
    limit,
    speed: Math.sqrt(root),
    low,
    ...(high <= range && { high }),
    flown,
    range,
    intercept,
    slope,
  };
}
