import type { Flight } from "../flight/index.ts";
import { type AircraftDifference, aircraftDifference } from "./aircraft-difference.ts";
import { type ComparedMission, compareMissions } from "./compare-missions.ts";
import { compareQuantity, type MeasuredCondition } from "./compare-quantity.ts";
import { forecastNextStep, type NextStep } from "./forecast.ts";
import { type JudgedRow, judgeTables } from "./judge-tables.ts";
import { type MeasuredFlight, measureFlight } from "./measure-flight.ts";
import { commonModes } from "./motion-meters.ts";
import { type ConditionPair, pairConditions, type Unpaired } from "./pair-conditions.ts";
import { powerSource } from "./power-meters.ts";
import { type Quantity, quantityId, type TableName } from "./quantity.ts";
import { type FlownCondition, flownConditions } from "./replicates.ts";

/** Two flights of one aircraft, side by side: numbers without words. */
export interface ComparedFlights {
  readonly kind: "compared";
  readonly pairs: readonly ConditionPair[];
  readonly unpaired: readonly Unpaired[];
  readonly tables: Readonly<Record<TableName, readonly JudgedRow[]>>;
  readonly mission: ComparedMission | null;
  /** of the flight after */
  readonly nextStep: NextStep | null;
  readonly before: MeasuredFlight;
  readonly after: MeasuredFlight;
  /** how power is known; null where a flight does not tell it, and commands stand in */
  readonly powerBy: string | null;
  /** what only one of the flights can tell */
  readonly onlyIn: readonly { readonly flight: "before" | "after"; readonly quantity: Quantity }[];
}

/** Why two flights do not compare. */
export type RefusedComparison =
  | { readonly kind: "refused"; readonly reason: "other-aircraft"; readonly difference: AircraftDifference }
  | {
      readonly kind: "refused";
      readonly reason: "no-common-condition";
      readonly before: readonly FlownCondition[];
      readonly after: readonly FlownCondition[];
    }
  | {
      readonly kind: "refused";
      readonly reason: "no-common-quantity";
      readonly onlyIn: ComparedFlights["onlyIn"];
    };

export interface CompareOptions {
  /** m/s of the next speed step; by default the last increment once more */
  readonly next?: number | undefined;
}

/** Pairs the conditions of two flights, measures both alike, and compares what both can tell. */
export function compare(
  before: Flight,
  after: Flight,
  options: CompareOptions = {},
): ComparedFlights | RefusedComparison {
  const difference = aircraftDifference(before.aircraft, after.aircraft);
  if (difference !== null) return { kind: "refused", reason: "other-aircraft", difference };
  const [flownBefore, flownAfter] = [flownConditions(before), flownConditions(after)];
  const { pairs, unpaired } = pairConditions(flownBefore, flownAfter);
  if (pairs.length === 0) {
    return { kind: "refused", reason: "no-common-condition", before: flownBefore, after: flownAfter };
  }
  const spansOf = (conditions: readonly FlownCondition[]) =>
    conditions.filter(({ kind }) => kind === "cruise").flatMap(({ replicates }) => replicates);
  const modes = commonModes(
    { flight: before, spans: spansOf(flownBefore) },
    { flight: after, spans: spansOf(flownAfter) },
  );
  const [one, other] = [measureFlight(before, flownBefore, modes), measureFlight(after, flownAfter, modes)];
  const { shared, onlyIn } = sharedQuantities(one, other);
  if (shared.length === 0) return { kind: "refused", reason: "no-common-quantity", onlyIn };
  const groups = [pairs.filter(isCruise), pairs.filter((pair) => !isCruise(pair))];
  const rows = shared.flatMap((quantity) =>
    groups.flatMap((group) =>
      compareQuantity(
        quantity,
        group.map((pair) => measuredCondition(quantity, pair, one, other)),
      ),
    ),
  );
  const powerMeter = ({ meters }: MeasuredFlight) => meters.find(({ quantity }) => quantity.key === "power");
  return {
    kind: "compared",
    pairs,
    unpaired,
    tables: judgeTables(rows),
    mission: compareMissions({ flight: before, power: powerMeter(one) }, { flight: after, power: powerMeter(other) }),
    nextStep: forecastNextStep(after, other, options.next),
    before: one,
    after: other,
    powerBy: powerSource(before) === null ? null : powerSource(after),
    onlyIn,
  };
}

const isCruise = ({ before }: ConditionPair) => before.kind === "cruise";

function sharedQuantities(before: MeasuredFlight, after: MeasuredFlight) {
  const ids = (flight: MeasuredFlight) => new Set(flight.quantities.map(quantityId));
  const [inBefore, inAfter] = [ids(before), ids(after)];
  const both = before.quantities.filter((quantity) => inAfter.has(quantityId(quantity)));
  // What stands in for power is told only where power itself is not.
  const hasPower = both.some(({ key }) => key === "power");
  const shared = both.filter(({ table, key }) => !(hasPower && table === "power" && key !== "power"));
  const alone = (flight: "before" | "after", own: readonly Quantity[], others: ReadonlySet<string>) =>
    own.filter((quantity) => !others.has(quantityId(quantity))).map((quantity) => ({ flight, quantity }));
  return {
    shared,
    onlyIn: [...alone("before", before.quantities, inAfter), ...alone("after", after.quantities, inBefore)],
  };
}

function measuredCondition(
  quantity: Quantity,
  pair: ConditionPair,
  before: MeasuredFlight,
  after: MeasuredFlight,
): MeasuredCondition {
  const id = quantityId(quantity);
  // Where only one flight tells its wind, the other's legs cannot be put on the same scale.
  const isAirKnown = before.air !== null && after.air !== null;
  const side = (flight: MeasuredFlight, condition: FlownCondition) =>
    condition.replicates.map((replicate) => ({
      air: isAirKnown ? flight.air!.get(replicate)! : null,
      direction: replicate.direction,
      value: flight.valueOf(id, replicate),
    }));
  const { kind } = pair.before;
  const speeds = [pair.before.speed, pair.after.speed];
  return {
    id: pair.id,
    kind,
    speed: speeds.includes(null) ? null : (speeds[0]! + speeds[1]!) / 2,
    before: side(before, pair.before),
    after: side(after, pair.after),
  };
}
