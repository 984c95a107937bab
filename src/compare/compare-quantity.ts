import { neighbourCorrelation } from "../detect/index.ts";
import { studentTQuantile, studentTTwoSided } from "../signal/index.ts";
import { type CellFit, type Contrast, fitCells, LEAST_FREEDOM, type Observation, type WindTerm } from "./fit-cells.ts";
import { flightToFlight } from "./flight-to-flight.ts";
import type { Quantity } from "./quantity.ts";

/** A number with its 95 % interval. */
export interface Bounded {
  readonly value: number;
  readonly low: number;
  readonly high: number;
}

/** One quantity at one condition, or over all speeds, before and after. */
export type ComparedRow = {
  readonly quantity: Quantity;
  /** id of the condition, or `all-speeds` */
  readonly condition: string;
  /** replicates of each flight */
  readonly replicates: { readonly before: number; readonly after: number };
} & (
  | {
      readonly kind: "compared";
      /** levels in the quantity's unit; null over all speeds, where they mean nothing */
      readonly before: Bounded | null;
      readonly after: Bounded | null;
      /** after over before less 1 for ratios; after less before else */
      readonly difference: Bounded;
      /** the smallest difference, as above, that so much data shows four times out of five */
      readonly detectable: number;
      readonly degreesOfFreedom: number;
      readonly pValue: number;
      readonly windTerm: WindTerm;
    }
  | {
      readonly kind: "not-enough-data";
      /** plain means, without an interval */
      readonly means: { readonly before: number | null; readonly after: number | null };
    }
);

/** A condition with what was measured in it. */
export interface MeasuredCondition {
  readonly id: string;
  readonly kind: "hover" | "cruise" | "flight";
  /** m/s, of the step: mean of both flights; null where unknown */
  readonly speed: number | null;
  readonly before: readonly MeasuredReplicate[];
  readonly after: readonly MeasuredReplicate[];
}

export interface MeasuredReplicate {
  readonly air: number | null;
  readonly direction: 1 | -1 | null;
  /** null where it could not be measured */
  readonly value: number | null;
}

const CONFIDENCE = 0.975;
/** Chance with which a difference of the stated size would be shown. */
const POWER = 0.8;

/**
 * Compares one quantity over conditions of one kind. All replicates of a flight share one variance, so that two legs of
 * each of four steps tell the spread of legs nearly as well as eight legs of one step; the interval is Student's t with what is left over,
 * plus the term for flight-to-flight change (degrees of freedom after Satterthwaite).
 *
 * @param conditions all of one kind: speed steps, or hover
 * @see Student 1908, Biometrika 6(1):1-25; Satterthwaite 1946, Biometrics Bulletin 2(6):110-114; Bloom 1995,
 *   Evaluation Review 19(5):547-556 (smallest detectable difference)
 */
export function compareQuantity(quantity: Quantity, conditions: readonly MeasuredCondition[]): ComparedRow[] {
  const usable = conditions.filter(({ before, after }) => [before, after].every((side) => side.some(isMeasured)));
  const transform = quantity.scale === "ratio" ? Math.log : (value: number) => value;
  const observations = usable.flatMap((condition, cell) =>
    (["before", "after"] as const).flatMap((side) =>
      condition[side].filter(isMeasured).map(
        ({ value, air, direction }): Observation => ({
          side,
          cell,
          y: transform(value!),
          air,
          direction,
        }),
      ),
    ),
  );
  const speeds = usable.map(({ kind, speed }) => (kind === "cruise" ? speed : null));
  const wanted = FOLLOWS_AIR.has(quantity.key) ? "air-curve" : "air-slope";
  const fit = usable.length === 0 ? null : fitCells(observations, speeds, wanted);
  const inflation = fit === null || usable[0]!.kind === "cruise" ? 1 : inflationOf(fit, observations);
  const rows = usable.map((condition, cell): ComparedRow => {
    const base = rowBase(quantity, condition);
    if (fit === null) return { ...base, kind: "not-enough-data", means: meansOf(condition) };
    const bounded = (side: Observation["side"]) => boundedLevel(quantity, fit.level(side, cell), inflation);
    return {
      ...base,
      kind: "compared",
      before: bounded("before"),
      after: bounded("after"),
      ...judged(quantity, fit, fit.difference(cell), inflation, betweenFlights(quantity, condition)),
    };
  });
  if (fit === null || usable.length < 2) return rows;
  const count = (side: "before" | "after") => usable.reduce((sum, one) => sum + one[side].filter(isMeasured).length, 0);
  const all: ComparedRow = {
    quantity,
    condition: "all-speeds",
    replicates: { before: count("before"), after: count("after") },
    kind: "compared",
    before: null,
    after: null,
    ...judged(quantity, fit, fit.difference("all"), inflation, betweenFlights(quantity, usable[0]!)),
  };
  return [...rows, all];
}

/** What a steady speed through the air sets, along a curve; errors and swings are made by gusts and only lean on it. */
const FOLLOWS_AIR = new Set([
  "power",
  "mean-command",
  "rotor-speed",
  "headroom-above",
  "headroom-below",
  "authority",
  "imbalance",
]);

const isMeasured = ({ value }: MeasuredReplicate) => value !== null;

function rowBase(quantity: Quantity, { id, before, after }: MeasuredCondition) {
  const replicates = { before: before.filter(isMeasured).length, after: after.filter(isMeasured).length };
  return { quantity, condition: id, replicates };
}

function meansOf({ before, after }: MeasuredCondition) {
  const mean = (side: readonly MeasuredReplicate[]) => {
    const values = side.flatMap(({ value }) => value ?? []);
    return values.length === 0 ? null : values.reduce((sum, value) => sum + value, 0) / values.length;
  };
  return { before: mean(before), after: mean(after) };
}

/** Neighbouring pieces of one hover are alike; their correlation r makes a mean's variance (1 + r) / (1 - r) as large. */
function inflationOf({ residuals }: CellFit, observations: readonly Observation[]): number {
  const sides = (["before", "after"] as const).map((side) =>
    Float64Array.from(observations.flatMap((one, i) => (one.side === side ? [residuals[i]!] : []))),
  );
  const known = sides.filter((values) => values.length >= LEAST_FREEDOM);
  if (known.length === 0) return 1;
  const r = Math.max(0, neighbourCorrelation(known));
  return (1 + r) / (1 - r);
}

function boundedLevel(quantity: Quantity, contrast: Contrast, inflation: number): Bounded {
  const reach = studentTQuantile(CONFIDENCE, contrast.degreesOfFreedom) * Math.sqrt(contrast.variance * inflation);
  const back = quantity.scale === "ratio" ? Math.exp : (value: number) => value;
  return { value: back(contrast.value), low: back(contrast.value - reach), high: back(contrast.value + reach) };
}

/** Variance of a difference from what changes between any two flights. */
function betweenFlights(quantity: Quantity, { kind, before, after }: MeasuredCondition): number {
  if (kind === "cruise") return 2 * flightToFlight(quantity) ** 2;
  const square = (side: readonly MeasuredReplicate[]) => {
    const known = side.flatMap(({ air }) => (air === null ? [] : air * air));
    return known.length === 0 ? null : known.reduce((sum, value) => sum + value, 0) / known.length;
  };
  const [one, other] = [square(before), square(after)];
  return 2 * flightToFlight(quantity, { windGap: one === null || other === null ? null : Math.abs(one - other) }) ** 2;
}

function judged(quantity: Quantity, fit: CellFit, contrast: Contrast, inflation: number, between: number) {
  const own = contrast.variance * inflation;
  const error = Math.sqrt(own + between);
  const degreesOfFreedom = own > 0 ? contrast.degreesOfFreedom * ((own + between) / own) ** 2 : 1e6;
  const freedom = Math.min(1e6, degreesOfFreedom);
  const t = studentTQuantile(CONFIDENCE, freedom);
  const back = quantity.scale === "ratio" ? Math.expm1 : (value: number) => value;
  return {
    difference: {
      value: back(contrast.value),
      low: back(contrast.value - t * error),
      high: back(contrast.value + t * error),
    },
    detectable: back((t + studentTQuantile(POWER, freedom)) * error),
    degreesOfFreedom: freedom,
    pValue: error > 0 ? studentTTwoSided(contrast.value / error, freedom) : contrast.value === 0 ? 1 : 0,
    windTerm: fit.term,
  };
}
