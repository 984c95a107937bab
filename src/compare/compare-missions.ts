import type { Flight, Phase } from "../flight/index.ts";
import type { Span } from "../log/index.ts";
import { studentTQuantile } from "../signal/index.ts";
import type { Bounded } from "./compare-quantity.ts";
import { flightToFlight } from "./flight-to-flight.ts";
import type { Meter } from "./quantity.ts";

/** Power over the same mission flown twice, turns and accelerations and all. */
export interface ComparedMission {
  /** W, mean over the matched parts, and s that they took */
  readonly before: { readonly power: number; readonly seconds: number };
  readonly after: { readonly power: number; readonly seconds: number };
  /** after over before less 1; null where the parts do not match or are too few */
  readonly difference: Bounded | null;
  /** parts (a leg with its turn) that were matched in order */
  readonly parts: number;
}

/** Fewer parts do not tell their own spread. */
const FEWEST_PARTS = 4;

/**
 * Compares mean power over the whole mission: from the start of the first leg to the end of the last, cut into legs
 * with the turns between, matched in order. The ratio of the sums has the interval of a ratio estimator over the parts
 * (Student's t), plus the flight-to-flight term. Wind is not taken out.
 *
 * @returns null where a flight has no legs or no power
 * @see Cochran 1977, Sampling Techniques, 3rd ed., section 6.4
 */
export function compareMissions(
  before: { readonly flight: Flight; readonly power: Meter | undefined },
  after: { readonly flight: Flight; readonly power: Meter | undefined },
): ComparedMission | null {
  if (before.power === undefined || after.power === undefined) return null;
  const [one, other] = [partsOf(before.flight), partsOf(after.flight)];
  if (one.length === 0 || other.length === 0) return null;
  const energies = (parts: readonly Span[], { measure }: Meter) =>
    parts.map((span) => ({ seconds: span.end - span.start, power: measure(span) }));
  const [b, a] = [energies(one, before.power), energies(other, after.power)];
  const total = (parts: typeof b) => {
    const known = parts.filter(({ power }) => power !== null);
    const seconds = known.reduce((sum, part) => sum + part.seconds, 0);
    return { power: known.reduce((sum, { power, seconds: s }) => sum + power! * s, 0) / seconds, seconds };
  };
  const [totalBefore, totalAfter] = [total(b), total(a)];
  if (!(totalBefore.seconds > 0) || !(totalAfter.seconds > 0)) return null;
  const isMatched = b.length === a.length && [...b, ...a].every(({ power }) => power !== null);
  return {
    before: totalBefore,
    after: totalAfter,
    parts: isMatched ? b.length : 0,
    difference: isMatched && b.length >= FEWEST_PARTS ? ratioOf(b as Part[], a as Part[], before.power) : null,
  };
}

interface Part {
  readonly seconds: number;
  readonly power: number;
}

function ratioOf(before: readonly Part[], after: readonly Part[], meter: Meter): Bounded {
  const count = before.length;
  // Parts weigh by the time that they took before, so that a longer turn is not taken for more power.
  const weights = before.map(({ seconds }) => seconds);
  const sum = (parts: readonly Part[]) => parts.reduce((total, { power }, i) => total + power * weights[i]!, 0);
  const ratio = sum(after) / sum(before);
  const squares = before.reduce((total, { power }, i) => {
    const left = weights[i]! * (after[i]!.power - ratio * power);
    return total + left * left;
  }, 0);
  const own = ((count / (count - 1)) * squares) / sum(before) ** 2;
  const error = Math.sqrt(own + 2 * (ratio * flightToFlight(meter.quantity)) ** 2);
  const reach = studentTQuantile(0.975, count - 1) * error;
  return { value: ratio - 1, low: ratio - 1 - reach, high: ratio - 1 + reach };
}

/** Each leg with what follows it up to the next one; the last ends with its leg. */
function partsOf({ phases }: Flight): Span[] {
  const legs = new Map<number, { start: number; end: number }>();
  for (const { leg, start, end } of phases.filter(isOfLeg)) {
    const known = legs.get(leg!);
    if (known === undefined) legs.set(leg!, { start, end });
    else known.end = end;
  }
  const inTime = [...legs.values()].sort((p, q) => p.start - q.start);
  return inTime.map(({ start, end }, i) => ({ start, end: inTime[i + 1]?.start ?? end }));
}

/** Only legs with a steady speed step count; a drift of some seconds is no leg. */
const isOfLeg = (phase: Phase, _: number, all: readonly Phase[]) =>
  phase.leg !== null && all.some(({ leg, step }) => leg === phase.leg && step !== null);
