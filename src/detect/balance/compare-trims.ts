import { isSamePlace } from "../../aircraft/index.ts";
import type { Flight } from "../../flight/index.ts";
import type { Layout } from "./load-shares.ts";
import { type SteadyTrims, steadyTrims, type Trim, withoutWind } from "./steady-trims.ts";

/** Two flights of one aircraft in the same steady condition. */
export interface ComparedTrims {
  readonly kind: "compared";
  readonly layout: Layout;
  readonly from: SteadyTrims["from"];
  readonly now: Trim;
  readonly before: Trim;
  readonly load: LoadChange;
}

/** What changed in the thrust that all motors together were asked for. */
export interface LoadChange {
  /** total thrust demand over that of the baseline, less 1, battery voltage allowed for where both flights log it */
  readonly total: number;
  /** mass over that of the baseline, less 1; null where the two aircraft files do not both state it */
  readonly mass: number | null;
  /** the part of `total` that masses do not explain: (1 + total) / (1 + mass) - 1 */
  readonly unexplained: number;
  /** battery voltage over that of the baseline; null where a flight lacks it, or where rotor speed tells thrust */
  readonly voltage: number | null;
}

/** Why two flights cannot be compared. */
export interface RefusedBaseline {
  readonly kind: "refused";
  readonly reason: "aircraft-differs" | "no-steady-flight" | "no-common-condition" | "load-differs";
  /** of `load-differs` */
  readonly load?: LoadChange;
}

/** A third more or less to carry is another aircraft: arms bend and propellers work on another part of their curve. */
const MOST_LOAD_CHANGE = 0.3;

/**
 * Finds the condition in which two flights can be compared: hover where both hovered, else the slowest speed step that
 * both flew, legs out and back averaged. Shares of the total thrust are compared, so mass and battery cancel; what
 * changed in the total is told as `load`. Rotor speed goes with voltage and thrust with the square of speed (common
 * practice), so a demand counts as much more as the voltage to the power of the thrust exponent.
 *
 * @returns null where this flight has nothing to compare
 */
export function compareTrims(flight: Flight, baseline: Flight): ComparedTrims | RefusedBaseline | null {
  const own = steadyTrims(flight);
  if (own === null || own.trims.length === 0) return null;
  const other = steadyTrims(baseline);
  if (other === null || other.trims.length === 0) return { kind: "refused", reason: "no-steady-flight" };
  if (!isSameLayout(own.layout, other.layout)) return { kind: "refused", reason: "aircraft-differs" };
  const sameMeasure = own.from === other.from;
  const [now, before] = sameMeasure
    ? [own, other]
    : [steadyTrims(flight, { commandOnly: true }), steadyTrims(baseline, { commandOnly: true })];
  if (now === null || before === null) return { kind: "refused", reason: "no-common-condition" };
  const pair = commonTrims(now, before);
  if (pair === null) return { kind: "refused", reason: "no-common-condition" };
  const load = loadChange(pair, now.voltageExponent, massChange(flight, baseline));
  if (Math.abs(Math.log1p(load.total)) > Math.log1p(MOST_LOAD_CHANGE))
    return { kind: "refused", reason: "load-differs", load };
  return { kind: "compared", layout: now.layout, from: now.from, ...pair, load };
}

function commonTrims(now: SteadyTrims, before: SteadyTrims): { now: Trim; before: Trim } | null {
  for (const trim of withoutWind(now.trims)) {
    const match = withoutWind(before.trims).find((other) => isSameCondition(trim, other));
    if (match !== undefined) return { now: trim, before: match };
  }
  return null;
}

/** Same kind of flight; in cruise the same speed within the tolerance of a speed step, and both or neither both ways. */
function isSameCondition({ condition: a }: Trim, { condition: b }: Trim): boolean {
  if (a.kind !== b.kind) return false;
  if (a.kind !== "cruise" || a.speed === null || b.speed === null) return true;
  return (
    (a.direction === null) === (b.direction === null) && Math.abs(a.speed - b.speed) <= Math.max(0.7, 0.1 * b.speed)
  );
}

function isSameLayout(a: Layout, b: Layout): boolean {
  if (a.motors !== b.motors) return false;
  return a.x.every(
    (x, i) => isSamePlace({ x, y: a.y[i]! }, { x: b.x[i]!, y: b.y[i]! }) && a.reaction[i] === b.reaction[i],
  );
}

function massChange({ aircraft: now }: Flight, { aircraft: before }: Flight): number | null {
  if (now === null || before === null || now.mass === null || before.mass === null) return null;
  return now.mass.value / before.mass.value - 1;
}

function loadChange(
  { now, before }: { now: Trim; before: Trim },
  voltageExponent: number,
  mass: number | null,
): LoadChange {
  const isLogged = voltageExponent !== 0 && now.voltage !== null && before.voltage !== null;
  const voltage = isLogged ? now.voltage! / before.voltage! : null;
  const total = (now.demand / before.demand) * (voltage ?? 1) ** voltageExponent - 1;
  return { total, mass, unexplained: (1 + total) / (1 + (mass ?? 0)) - 1, voltage };
}
