import { leastSquaresOrNull, studentTQuantile } from "../signal/index.ts";

/** Thrust that one motor had left in one steady stretch of flight. */
export interface HeadroomPoint {
  /** m/s, 0 for hover */
  readonly speed: number;
  /** number of the speed step, null for hover */
  readonly step: number | null;
  /** 1 out, -1 back, 0 unknown or hover */
  readonly way?: 1 | 0 | -1;
  /** share of the motor's largest thrust, to its ceiling and to its floor: 99th and 1st percentile of the stretch */
  readonly above: number;
  readonly below: number;
}

/** The speed at which a motor would have none of its thrust left that way, if its headroom goes on as flown. */
export interface HeadroomForecast {
  readonly limit: "ceiling" | "floor";
  /** m/s, with a 90 % interval; `high` is absent where the data sets no bound inside the stated range */
  readonly speed: number;
  readonly low: number;
  readonly high?: number;
  /** the way on which it is met first, 0 where both are alike or unknown */
  readonly way: 1 | 0 | -1;
  /** m/s, the fastest step flown and the speed up to which a forecast is given */
  readonly flown: number;
  readonly range: number;
  /**
   * headroom = intercept + linear x speed + slope x speed^2 on that way, and beyond the fastest step flown
   * slope x growth x (speed^2 - flown^2) more
   */
  readonly intercept: number;
  readonly linear: number;
  readonly slope: number;
  readonly growth: number;
}

/** A forecast reaches this far beyond the fastest step flown: 1.5 times the speed is 2.25 times the air's moments. */
export const FORECAST_RANGE = 1.5;
export const FORECAST_LEVEL = 0.9;
/** A line through fewer speeds says nothing about its own error. */
const FEWEST_SPEEDS = 3;
/** Degrees of freedom that have to remain for wind along the legs to be told apart. */
const FEWEST_LEFT_OVER = 3;
/** Headroom below this is at the limit already: how far beyond, the command does not tell. */
const AT_LIMIT = 0.003;
/**
 * Less than this share of the largest thrust is none: controllers cut moments back before the very last of it shows in
 * a command (common practice, and in simulated flights).
 */
export const SPENT = 0.02;

/** How real flights are taken to differ from one straight line with the same scatter everywhere. */
export interface ForecastOptions {
  /**
   * share by which headroom falls faster beyond the fastest step than the law fitted to the steps: thrust that holds
   * the weight grows as 1/cos(tilt), so with the fourth power of speed where drag, which tilts the aircraft, grows with
   * the square. Its size was chosen on simulated flights, see the studies.
   */
  readonly growth?: number;
  /**
   * standard deviation of that share, chosen likewise: tilt turns a boom into the wind, and a motor near its limit makes
   * the loops work harder
   */
  readonly departure?: number;
  /** scatter between legs at the fastest step over that between hovers: gusts push with airspeed */
  readonly scatter?: number;
  /** headroom from which none is left, share of the largest thrust */
  readonly spent?: number;
}

/** Steps of the search along the range. */
const SEARCH = 600;

/**
 * Forecasts the speed at which a motor has no headroom left. Drag and the moments of the air go with the square of
 * airspeed. With a steady wind, airspeed is the speed over ground less a part that has one sign out and the other
 * back, so headroom in thrust is linear in speed squared and in speed times way; it is fitted by least squares to the
 * steady stretches. The interval holds every speed at which one more leg might show no headroom left (Student's t).
 *
 * @returns null where headroom does not shrink beyond doubt, or runs out outside the stated range
 * @see Draper and Smith, Applied Regression Analysis, section 3.2 (inverse regression); Fieller 1954, J. R. Stat. Soc. B 16(2):175-185
 */
export function forecastHeadroom(
  points: readonly HeadroomPoint[],
  limit: "ceiling" | "floor",
  { growth = 0.5, departure = 0.25, scatter = 4, spent = SPENT }: ForecastOptions = {},
): HeadroomForecast | null {
  const left = ({ above, below }: HeadroomPoint) => (limit === "ceiling" ? above : below);
  const flown = Math.max(...points.map(({ speed }) => speed));
  const atLimit = points.filter((point) => point.speed > 0 && left(point) <= spent);
  // The slowest leg at the limit still shows where it lies; a faster one shows nothing but the limit.
  const isBeyond = (point: HeadroomPoint) =>
    left(point) <= AT_LIMIT && atLimit.some(({ way, speed }) => way === point.way && speed < point.speed);
  const used = points.filter((point) => !isBeyond(point));
  if (new Set(used.map(({ step }) => step)).size < FEWEST_SPEEDS || used.length < FEWEST_SPEEDS + 1) return null;
  const ways = new Set(used.map(({ way = 0 }) => way));
  const hasWind = ways.has(1) && ways.has(-1) && used.length >= 3 + FEWEST_LEFT_OVER;
  const row = (speed: number, way: number) => (hasWind ? [1, speed * speed, way * speed] : [1, speed * speed]);
  const scatterAt = (speed: number) => Math.hypot(1, (Math.sqrt(scatter ** 2 - 1) * speed) / flown);
  const rows = used.map(({ speed, way = 0 }) => row(speed, way).map((part) => part / scatterAt(speed)));
  const columns = rows[0]!.map((_, k) => Float64Array.from(rows, (one) => one[k]!));
  const fit = leastSquaresOrNull(
    columns,
    Float64Array.from(used, (point) => left(point) / scatterAt(point.speed)),
  );
  if (fit === null) return null;
  const { coefficients, covariance, residualVariance, degreesOfFreedom } = fit;
  const [intercept, slope, wind = 0] = coefficients as unknown as [number, number, number?];
  if (!(slope < 0)) return null;
  const t = studentTQuantile((1 + FORECAST_LEVEL) / 2, degreesOfFreedom);
  const range = FORECAST_RANGE * flown;
  const excess = (speed: number) => slope * Math.max(0, speed * speed - flown * flown);
  const half = (speed: number, way: number) => {
    const at = row(speed, way);
    let variance = residualVariance * scatterAt(speed) ** 2;
    for (const [i, a] of at.entries())
      for (const [j, b] of at.entries()) variance += a * b * covariance.data[i * at.length + j]!;
    return t * Math.sqrt(Math.max(0, variance) + (departure * excess(speed)) ** 2);
  };
  const sooner = (hasWind ? ([1, -1] as const) : ([0] as const))
    .flatMap((way) => {
      const law = { intercept, linear: wind * way, slope, growth, flown };
      const trend = (speed: number) => forecastHeadroomAt(law, speed) - spent;
      const met = atLimit.filter((point) => !hasWind || point.way === way).map((point) => point.speed);
      const speed = firstBelow(trend, Math.min(range, ...met)) ?? (met.length > 0 ? Math.min(...met) : null);
      if (speed === null) return [];
      const low = firstBelow((at) => trend(at) - half(at, way), speed) ?? speed;
      const high = firstBelow((at) => trend(at) + half(at, way), range);
      return [{ way, speed, low, ...(high !== null && { high }) }];
    })
    .sort((a, b) => a.speed - b.speed)[0];
  if (sooner === undefined) return null;
  // A line whose fall may be chance foretells nothing.
  const error = Math.sqrt(covariance.data[rows[0]!.length + 1]!);
  if (!(slope + t * error < 0)) return null;
  return { limit, ...sooner, flown, range, intercept, linear: wind * sooner.way, slope, growth };
}

/** Headroom on the way of a forecast, as far as it is foretold, at a speed in m/s; share of the largest thrust. */
export function forecastHeadroomAt(
  {
    intercept,
    linear,
    slope,
    growth,
    flown,
  }: Pick<HeadroomForecast, "intercept" | "linear" | "slope" | "growth" | "flown">,
  speed: number,
): number {
  const excess = Math.max(0, speed * speed - flown * flown);
  return intercept + linear * speed + slope * (speed * speed + growth * excess);
}

/** Where a function that begins above zero first comes down to it, within `range`; null where it does not. */
function firstBelow(of: (at: number) => number, range: number): number | null {
  if (!(of(0) > 0)) return 0;
  for (let k = 1; k <= SEARCH; k++) {
    let [above, below] = [(range * (k - 1)) / SEARCH, (range * k) / SEARCH];
    if (of(below) > 0) continue;
    for (let i = 0; i < 50; i++) {
      const middle = (above + below) / 2;
      if (of(middle) > 0) above = middle;
      else below = middle;
    }
    return (above + below) / 2;
  }
  return null;
}
