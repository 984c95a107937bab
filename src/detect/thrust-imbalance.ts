import { channelOf } from "../flight/index.ts";
import type { Span } from "../log/channel.ts";
import { studentTQuantile } from "../signal/index.ts";
import { centreMeasures, type ShiftOfFlight } from "./balance/centre-measures.ts";
import { type ComparedTrims, compareTrims } from "./balance/compare-trims.ts";
import { explanationsOf, IN_THE_MIDDLE, type Pattern } from "./balance/imbalance-patterns.ts";
import type { Layout } from "./balance/load-shares.ts";
import { residualPattern } from "./balance/residual-pattern.ts";
import { sharedPlaces } from "./balance/shared-places.ts";
import { BETWEEN_AIRCRAFT, BETWEEN_FLIGHTS, shiftBetween, shiftOf, withTolerance } from "./balance/shift-of.ts";
import { type SteadyTrims, steadyTrims, type Trim, withoutWind } from "./balance/steady-trims.ts";
import { judge, type Verdict } from "./balance/verdict.ts";
import { weighExplanations } from "./balance/weigh-explanations.ts";
import { windAndSpeed } from "./balance/wind-and-speed.ts";
import type { Detector, Estimate, EvidenceBase, MotorEstimate } from "./evidence.ts";

/** How unevenly the motors shared the load, and what explains it. */
export interface ThrustImbalanceEvidence extends EvidenceBase {
  readonly kind: "thrust-imbalance";
  /** of two causes together the one that names a motor, or else moves more */
  readonly pattern: Pattern;
  /** the second of two causes together */
  readonly besides?: Pattern;
  /** motors that the pattern names, most loaded first; empty where it names none */
  readonly motors: readonly number[];
  /** patterns that this flight cannot tell from it; of a pattern with a second cause, either may be among them alone */
  readonly alternatives: readonly Pattern[];
  /** two causes together that this flight cannot tell from it */
  readonly alternativePairs: readonly (readonly [Pattern, Pattern])[];
  /** whether an aircraft in order is more probable than the pattern, if not than all faults together: a hint and no more */
  readonly isUsual: boolean;
  /** motors that sit at one place, above each other: what they do to the balance is alike */
  readonly sharedPlaces: readonly (readonly number[])[];
  /** from rotor speeds or from commands */
  readonly from: SteadyTrims["from"];
  /** in which steady flight it was measured */
  readonly condition: Trim["condition"];
  readonly isAgainstBaseline: boolean;
  readonly perMotor: Readonly<Record<"excess" | string, readonly MotorEstimate[]>>;
}

/**
 * Reads the pattern of thrusts that steady flight needed. Shares of the total thrust, averaged over hover (or the
 * slowest speed step), give the centre of gravity and the spin bias by statics; explanations of the shift are weighed
 * by their marginal likelihood. Against a baseline the same is done with the difference of two flights, which is
 * sharper, because what stands in every flight of this aircraft cancels.
 */
export const thrustImbalance: Detector<ThrustImbalanceEvidence> = {
  kind: "thrust-imbalance",
  missing(flight) {
    const { aircraft } = flight;
    if (aircraft === null) return ["aircraft"];
    const unlogged = aircraft.motors.findIndex((_, i) => channelOf(flight, `motor.${i + 1}.command`) === undefined);
    return unlogged < 0 ? [] : [`motor.${unlogged + 1}.command`];
  },
  detect(flight, baseline = null) {
    const trims = steadyTrims(flight);
    if (trims === null || trims.trims.length === 0) return [];
    const compared = baseline === null ? null : compareTrims(flight, baseline);
    const found =
      compared?.kind === "compared"
        ? againstBaseline(compared)
        : withoutBaseline(trims.layout, withoutWind(trims.trims)[0]!);
    if (found === null) return [];
    const { now, ...rest } = found;
    return [
      {
        kind: "thrust-imbalance",
        ...around(now.condition.spans),
        from: compared?.kind === "compared" ? compared.from : trims.from,
        condition: now.condition,
        isAgainstBaseline: compared?.kind === "compared",
        ...rest,
        measures: { ...rest.measures, ...windAndSpeed(trims) },
      },
    ];
  },
};

function around(spans: readonly Span[]) {
  return { start: spans[0]!.start, end: spans.at(-1)!.end, stretches: spans };
}

function withoutBaseline(layout: Layout, now: Trim) {
  const measured = shiftOf(layout, now.shares, now.covariance);
  const of: ShiftOfFlight = {
    layout,
    shares: now.shares,
    measured,
    freedom: now.degreesOfFreedom,
    moved: null,
    before: IN_THE_MIDDLE,
  };
  const excess = Array.from(now.shares, (share, i) =>
    motorEstimate(i, share / layout.healthy[i]! - 1, variance(now, i) / layout.healthy[i]! ** 2, now.degreesOfFreedom),
  );
  return claim(of, excess, now, {}, {});
}

function againstBaseline({ layout, now, before, load }: ComparedTrims) {
  const past = shiftOf(layout, before.shares, before.covariance);
  const measured = shiftBetween(past, shiftOf(layout, now.shares, now.covariance));
  const moved = now.shares.map((share, i) => share - before.shares[i]!);
  const freedom = Math.min(now.degreesOfFreedom, before.degreesOfFreedom);
  const excess = Array.from(now.shares, (share, i) => {
    const own = before.shares[i]!;
    const spread = variance(now, i) / own ** 2 + (variance(before, i) * share ** 2) / own ** 4;
    return motorEstimate(i, share / own - 1, spread, freedom);
  });
  const standing = (trim: Trim) =>
    Array.from(trim.shares, (share, i) =>
      motorEstimate(
        i,
        share / layout.healthy[i]! - 1,
        variance(trim, i) / layout.healthy[i]! ** 2,
        trim.degreesOfFreedom,
      ),
    );
  return claim(
    { layout, shares: now.shares, measured, freedom: now.degreesOfFreedom, moved, before: past.shift },
    excess,
    now,
    {
      load: { value: load.total, unit: "1" },
      ...(load.mass !== null && load.mass !== 0 && { "mass-change": { value: load.mass, unit: "1" } }),
    },
    { "demand-now": standing(now), "demand-before": standing(before) },
  );
}

const variance = ({ covariance }: Trim, motor: number) => covariance.data[motor * covariance.columns + motor]!;

function motorEstimate(index: number, value: number, spread: number, freedom: number): MotorEstimate {
  const reach = studentTQuantile(0.975, freedom) * Math.sqrt(spread);
  return { motor: index + 1, value, unit: "1", low: value - reach, high: value + reach };
}

function verdictOf({ layout, measured: { shift, covariance }, moved, before }: ShiftOfFlight): Verdict {
  const whole =
    moved === null
      ? withTolerance(layout, covariance, BETWEEN_AIRCRAFT)
      : withTolerance(layout, covariance, BETWEEN_FLIGHTS, { moved });
  // Weighed from the middle: repeated real flights whose baseline lay off it name their cause more often so than from
  // the baseline's centre. Sizes are of the shift from where the load lay.
  const explanations = explanationsOf(layout);
  const verdict = judge(weighExplanations(shift, whole, explanations));
  const at = explanations.indexOf(verdict.explanation);
  return { ...verdict, explanation: explanationsOf(layout, before)[at]! };
}

/**
 * Where no pattern beats what aircraft in order show, it is told, as what it is, only if a motor stands out by this and
 * if an aircraft in order is not twice as probable as all faults together.
 */
const WORTH_TELLING = { excess: 0.02, none: 2 / 3 };

function claim(
  of: ShiftOfFlight,
  excess: readonly MotorEstimate[],
  now: Trim,
  measures: Record<string, Estimate>,
  perMotor: Record<string, readonly MotorEstimate[]>,
) {
  const verdict = verdictOf(of);
  const standsOut = excess.some(({ value, low, high }) => Math.abs(value) >= WORTH_TELLING.excess && low! * high! > 0);
  if (verdict.isNone && (!standsOut || verdict.none > WORTH_TELLING.none)) return null;
  const residual = residualPattern(of.layout, now);
  const { measures: ofCentre, tilts } = centreMeasures(of, verdict);
  const motors = [...verdict.motors].sort((a, b) => excess[b - 1]!.value - excess[a - 1]!.value);
  return {
    now,
    pattern: verdict.pattern,
    ...(verdict.besides !== null && { besides: verdict.besides }),
    motors,
    ...(verdict.pattern === "single-motor" && { motor: motors[0]! }),
    alternatives: verdict.alternatives,
    alternativePairs: verdict.alternativePairs,
    isUsual: verdict.isNone,
    sharedPlaces: sharedPlaces(of.layout),
    confidence: verdict.confidence,
    measures: {
      ...ofCentre,
      ...(residual !== null && { residual: residual.size }),
      ...measures,
    },
    perMotor: {
      excess,
      ...(tilts.length > 0 && { "tilt-by-motor": tilts }),
      ...(residual !== null && { "residual-by-motor": residual.motors }),
      ...perMotor,
    },
  };
}
