import { mean, studentTQuantile } from "../signal/index.ts";
import { FORECAST_LEVEL, SPENT } from "./headroom-forecast.ts";
import type { VoltageLaw } from "./voltage-law.ts";

/** What a motor was asked for in one steady piece. */
export interface VoltagePoint {
  /** V */
  readonly voltage: number;
  /** share of the motor's largest thrust left to the ceiling, 99th percentile of the command */
  readonly above: number;
  /** m/s, 0 for hover */
  readonly speed: number;
  readonly step: number | null;
  readonly way?: 1 | 0 | -1;
}

/** The battery voltage at which a motor's headroom would be spent (`SPENT`) in the flight condition that asks the most of it. */
export interface VoltageForecast {
  /** V, with a 90 % interval; `low` is absent where the data sets no bound inside the stated range */
  readonly voltage: number;
  readonly low?: number;
  readonly high: number;
  /** V, the lowest of a steady piece, and down to which a forecast is given */
  readonly flown: number;
  readonly range: number;
  /** m/s, the condition: 0 for hover */
  readonly speed: number;
  /** headroom = 1 - share x (voltage / reference)^-exponent */
  readonly share: number;
  readonly reference: number;
  readonly exponent: number;
}

/** A forecast reaches down to this share of the lowest voltage flown: about what a cell has left from half full. */
export const VOLTAGE_RANGE = 0.85;
const FEWEST_LEFT_OVER = 3;
/** A law weaker than this is none: the drives make up for the voltage. */
const LEAST_EXPONENT = 0.3;

/**
 * Forecasts the voltage at which headroom to the ceiling comes down to `SPENT`. Thrust at full command falls with voltage as
 * the law says, so what the motor was asked for in a piece, as a share of its thrust at one reference voltage, is the
 * same for pieces of like flight; headroom is spent where that is all but `SPENT` of what full command gives. The scatter between
 * like pieces (Student's t) and the error of the exponent make the interval, which is that of one more piece.
 *
 * @returns null where no voltage law is known, like pieces are too few, or the ceiling lies outside the stated range
 */
export function forecastVoltage(points: readonly VoltagePoint[], law: VoltageLaw | null): VoltageForecast | null {
  if (law === null || law.exponent < LEAST_EXPONENT || points.length < 2) return null;
  const flown = Math.min(...points.map(({ voltage }) => voltage));
  const groups = new Map<string, { speed: number; shares: number[] }>();
  for (const { voltage, above, speed, step, way = 0 } of points) {
    const name = `${step} ${way}`;
    const group = groups.get(name) ?? { speed, shares: [] };
    // At the reference, the lowest voltage flown: the forecast departs from there.
    group.shares.push((1 - above) * (voltage / flown) ** law.exponent);
    groups.set(name, group);
  }
  const left = points.length - groups.size;
  if (left < FEWEST_LEFT_OVER) return null;
  let squares = 0;
  for (const { shares } of groups.values()) {
    const middle = mean(Float64Array.from(shares));
    for (const share of shares) squares += (share - middle) ** 2;
  }
  const most = [...groups.values()]
    .map(({ speed, shares }) => ({ speed, count: shares.length, share: mean(Float64Array.from(shares)) }))
    .sort((a, b) => b.share - a.share)[0]!;
  const scatter = Math.sqrt((squares / left) * (1 + 1 / most.count));
  const share = most.share / (1 - SPENT);
  const voltage = flown * share ** (1 / law.exponent);
  const range = VOLTAGE_RANGE * flown;
  if (voltage < range || voltage > flown) return null;
  const logError = Math.hypot(
    scatter / most.share / law.exponent,
    (Math.log(share) / law.exponent ** 2) * law.standardError,
  );
  const t = studentTQuantile((1 + FORECAST_LEVEL) / 2, Math.min(left, law.degreesOfFreedom));
  const low = voltage * Math.exp(-t * logError);
  return {
    voltage,
    ...(low >= range && { low }),
    high: voltage * Math.exp(t * logError),
    flown,
    range,
    speed: most.speed,
    share: most.share,
    reference: flown,
    exponent: law.exponent,
  };
}
