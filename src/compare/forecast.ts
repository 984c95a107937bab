import { AXES, type Axis } from "../aircraft/index.ts";
import { headroomOf } from "../detect/index.ts";
import { commandedMotors, type Flight } from "../flight/index.ts";
import { mean } from "../signal/index.ts";
import { flutterMargin } from "./flutter-margin.ts";
import type { MeasuredFlight } from "./measure-flight.ts";
import { axisModes } from "./motion-meters.ts";
import { FORECAST_LEVEL, type GrowthPrediction, predictGrowth } from "./predict-line.ts";

/** One quantity as it would be at the next speed step if it goes on as flown, with what it rests on. */
export interface Forecast {
  /** `headroom-above`, `headroom-below`: share of a motor's thrust; `authority`, `damping`: 1; `flutter-margin`: of the slowest step's */
  readonly key: "headroom-above" | "headroom-below" | "authority" | "damping" | "flutter-margin";
  readonly motor?: number;
  readonly axis?: Axis;
  /** mean over the legs of the fastest step flown */
  readonly flown: number;
  /** at the next step, mean of as many legs, with a 90 % interval */
  readonly next: Pick<GrowthPrediction, "value" | "low" | "high">;
  /** the trend: coefficients of the powers 0, 1, 2, ... of speed */
  readonly coefficients: readonly number[];
  /** speeds (through the air where known) and values of the legs, as fitted */
  readonly points: readonly { readonly speed: number; readonly value: number }[];
}

/** What may be said of one speed step beyond the fastest flown. */
export interface NextStep {
  /** m/s over ground */
  readonly speed: number;
  readonly fastest: number;
  readonly level: number;
  readonly forecasts: readonly Forecast[];
  /** quantities for which there was not enough data: fewer than three speeds, or not logged */
  readonly missing: readonly Forecast["key"][];
}

/** Powers of speed with which what the air takes may grow: drag with the square, power with the cube, more near a stall. */
const AIR: readonly number[] = [2, 3, 4];
/** Damping falls about evenly as a loop meets more of what it cannot follow (common practice). */
const EVEN: readonly number[] = [1];
/** The flutter margin is followed over dynamic pressure, after Zimmerman and Weissenburger. */
const SQUARE: readonly number[] = [2];

/**
 * Extends what was measured on the legs by one speed step: thrust left to each motor and authority left over the
 * square, the cube and the fourth power of speed, damping over speed, each by weighted least squares with a prediction
 * interval that holds the doubt about the power; and, where an axis has two modes that approach each other, the flutter
 * margin over speed squared. A trend says nothing of what lies beyond a sudden change.
 *
 * @param speed m/s of the next step; by default the fastest flown and the last increment once more
 * @returns null for a flight without speed steps
 */
export function forecastNextStep(flight: Flight, measured: MeasuredFlight, speed?: number): NextStep | null {
  const cruise = measured.conditions.filter(({ kind, speed }) => kind === "cruise" && speed !== null);
  if (cruise.length === 0) return null;
  const speeds = cruise.map((condition) => condition.speed!);
  const fastest = speeds.at(-1)!;
  const next = speed ?? fastest + (fastest - (speeds.at(-2) ?? 0));
  const legs = cruise.flatMap(({ speed, replicates }, step) =>
    replicates.map((leg) => ({ leg, step, ground: speed!, air: measured.air?.get(leg) ?? speed! })),
  );
  const looks = Math.max(1, Math.round(legs.length / cruise.length));
  const wind = measured.wind === null ? 0 : Math.hypot(measured.wind.north, measured.wind.east);
  const line = (
    powers: readonly number[],
    value: (leg: (typeof legs)[number]) => number | null,
  ): Omit<Forecast, "key"> | null => {
    const known = legs.flatMap(({ leg, step, ground, air }) => {
      const y = value({ leg, step, ground, air });
      return y === null || !Number.isFinite(y)
        ? []
        : [{ y, step, seconds: leg.end - leg.start, speed: powers === EVEN ? ground : air }];
    });
    // Legs up and down in a wind w meet, on average, the square of the speed and of the wind.
    const at = powers === EVEN ? next : Math.hypot(next, wind);
    const seconds = known.map((one) => one.seconds);
    const fit = predictGrowth(
      known.map((one) => one.speed),
      known.map(({ y }) => y),
      seconds,
      at,
      { powers, weightAt: seconds.length === 0 ? 1 : mean(seconds), looks },
    );
    const last = known.filter(({ step }) => step === cruise.length - 1).map(({ y }) => y);
    if (fit === null || last.length === 0) return null;
    const { value: expected, low, high, coefficients } = fit;
    const points = known.map((one) => ({ speed: one.speed, value: one.y }));
    return { flown: mean(last), next: { value: expected, low, high }, coefficients, points };
  };
  const forecasts: Forecast[] = [];
  for (const key of ["headroom-above", "headroom-below"] as const) {
    const lines = commandedMotors(flight).flatMap((motor) => {
      const fit = line(
        AIR,
        ({ leg }) => headroomOf(flight, motor, leg)?.[key === "headroom-above" ? "above" : "below"] ?? null,
      );
      return fit === null ? [] : [{ key, motor, ...fit }];
    });
    const least = lines.sort((a, b) => a.next.value - b.next.value)[0];
    if (least !== undefined && flight.aircraft !== null) forecasts.push(least);
  }
  // A motor near its limit takes the moment about every axis that it serves, so that the axes' lines are often one.
  const authorities = AXES.flatMap((axis) => {
    const fit = line(AIR, ({ leg }) => measured.valueOf(`authority-${axis}`, leg));
    return fit === null ? [] : [{ key: "authority" as const, axis, ...fit }];
  });
  const leastAuthority = authorities.sort((a, b) => a.next.value - b.next.value)[0];
  if (leastAuthority !== undefined) forecasts.push(leastAuthority);
  for (const axis of AXES) {
    const damping = line(EVEN, ({ leg }) => measured.valueOf(`damping-${axis}`, leg));
    if (damping !== null) forecasts.push({ key: "damping", axis, ...damping });
    const flutter = approachingModes(flight, axis, legs);
    if (flutter !== null) {
      const slowest = mean(legs.filter(({ step }) => step === 0).map(({ leg }) => flutter.get(leg) ?? Number.NaN));
      const fit = line(SQUARE, ({ leg }) => (flutter.get(leg) ?? Number.NaN) / slowest);
      if (slowest > 0 && fit !== null) forecasts.push({ key: "flutter-margin", axis, ...fit });
    }
  }
  const keys = new Set(forecasts.map(({ key }) => key));
  const missing = (["headroom-above", "headroom-below", "authority", "damping"] as const).filter(
    (key) => !keys.has(key),
  );
  return { speed: next, fastest, level: FORECAST_LEVEL, forecasts, missing };
}

type Leg = MeasuredFlight["conditions"][number]["replicates"][number];
/** Modes whose frequencies come this much nearer from the slowest step to the fastest, as a factor, approach each other. */
const APPROACH = 0.8;

/** The flutter margin of each leg, where an axis shows two modes on every leg and they approach each other. */
function approachingModes(
  flight: Flight,
  axis: Axis,
  legs: readonly { readonly leg: Leg; readonly step: number }[],
): Map<Leg, number> | null {
  const pairs = legs.map(({ leg, step }) => {
    const modes = axisModes(flight, axis, leg)
      .slice(0, 2)
      .map(({ frequency, growthRate }) => ({ frequency: frequency.value, growth: growthRate.value }))
      .sort((a, b) => a.frequency - b.frequency);
    return modes.length < 2 ? null : { leg, step, modes: modes as [(typeof modes)[0], (typeof modes)[0]] };
  });
  if (pairs.length === 0 || pairs.includes(null)) return null;
  const known = pairs as NonNullable<(typeof pairs)[number]>[];
  const lastStep = Math.max(...known.map(({ step }) => step));
  const apart = (step: number) =>
    mean(known.filter((pair) => pair.step === step).map(({ modes: [a, b] }) => b.frequency - a.frequency));
  if (lastStep < 2 || !(apart(lastStep) < APPROACH * apart(0))) return null;
  return new Map(known.map(({ leg, modes: [a, b] }) => [leg, flutterMargin(a, b)]));
}
