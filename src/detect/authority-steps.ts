import { type Flight, onceAFlight, type Phase } from "../flight/index.ts";
import { median } from "../signal/index.ts";
import { rangesWithin, valuesWithin } from "./air-time.ts";
import { type AuthoritySeries, authoritySeries, DIRECTIONS } from "./authority-series.ts";
import { lowestAt } from "./lowest-at.ts";
import { thinned } from "./thinned.ts";

/** Control left one way about an axis while hovering or at one speed step. */
export interface StepAuthority {
  /** number of the speed step, null for hover */
  readonly step: number | null;
  /** m/s, mean over its legs by time, 0 for hover */
  readonly speed: number;
  readonly seconds: number;
  /** share of what hover has: the least, the middle, and the motor that stood in the way at the least */
  readonly least: number;
  readonly median: number;
  readonly motor: number;
}

/** s; less flight than this has no middle worth the name */
const SHORTEST = 2;

type Way = AuthoritySeries["axes"][number];

/** Hover first where there is some, then the steps in the order of their numbers. Computed once a flight. */
export const authorityBySteps = (flight: Flight, { axis, direction }: Way): readonly StepAuthority[] =>
  byWay(flight).get(`${axis} ${direction}`) ?? [];

const byWay = onceAFlight((flight) => {
  const series = authoritySeries(flight);
  return new Map(series?.axes.map((way) => [`${way.axis} ${way.direction}`, bySteps(flight, series, way)]));
});

function bySteps(
  { phases }: Flight,
  { motors, room }: AuthoritySeries,
  { axis, direction, left }: Way,
): StepAuthority[] {
  const groups = new Map<number | null, Phase[]>();
  for (const phase of phases) {
    if (phase.kind !== "hover" && phase.step === null) continue;
    groups.set(phase.step, [...(groups.get(phase.step) ?? []), phase]);
  }
  return [...groups]
    .sort(([a], [b]) => (a ?? 0) - (b ?? 0))
    .flatMap(([step, own]) => {
      const seconds = own.reduce((sum, { start, end }) => sum + end - start, 0);
      const ranges = rangesWithin(motors.time, own);
      if (seconds < SHORTEST || ranges.length === 0) return [];
      const lows = ranges.map(({ from, to }) => lowestAt(left, from, to));
      const at = lows.reduce((lowest, k) => (left[k]! < left[lowest]! ? k : lowest));
      const thrusts = motors.thrusts.map((thrust) => thrust[at]!);
      const speed = own.reduce((sum, { start, end, speed }) => sum + (speed ?? 0) * (end - start), 0) / seconds;
      return [
        {
          step,
          speed,
          seconds,
          least: left[at]!,
          median: median(thinned(valuesWithin({ time: motors.time, values: left }, own))),
          motor: room.binding(axis, DIRECTIONS[direction], thrusts),
        },
      ];
    });
}
