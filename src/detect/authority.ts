import type { Axis } from "../aircraft/index.ts";
import { commandedMotors, type Flight, type Phase } from "../flight/index.ts";
import type { Span } from "../log/channel.ts";
import { quantiles } from "../signal/index.ts";
import { type AuthoritySeries, authoritySeries, DIRECTIONS, type Direction } from "./authority-series.ts";
import { authorityBySteps, type StepAuthority } from "./authority-steps.ts";
import { beyond } from "./beyond.ts";
import { episodesOf, longestOf } from "./episodes.ts";
import type { Detector, EvidenceBase } from "./evidence.ts";
import { groupAuthority, LITTLE } from "./group-authority.ts";
import { lowestAt } from "./lowest-at.ts";
import { timeInPhases } from "./motor-limits.ts";
import { thinned } from "./thinned.ts";

/** How much control was left about an axis in one direction. */
export interface AuthorityEvidence extends EvidenceBase {
  readonly kind: "authority";
  readonly axis: Axis;
  readonly direction: Direction;
  /** with less than a tenth left, in order */
  readonly stretches: readonly Span[];
  /** s, when the least was left, and the motor that stood in the way */
  readonly leastAt: number;
  readonly leastMotor: number;
  /** motors that stood in the way while less than 0.3 was left, with their share of that time, most first */
  readonly binding: readonly { readonly motor: number; readonly share: number }[];
  /** where less than a tenth was left (less than 0.3 if it never was), most first */
  readonly where: readonly { readonly phase: Phase; readonly seconds: number }[];
  /** share left at these shares of the air time */
  readonly distribution: { readonly p1: number; readonly p5: number; readonly p50: number };
  readonly hoverFrom: AuthoritySeries["hover"]["from"];
  /** in hover and at each speed step */
  readonly steps: readonly StepAuthority[];
  /** ways that ran out in the same stretches, or had their least at one moment, share a group; the worst leads */
  readonly group?: string;
  readonly leads?: boolean;
}

/** Less than this is next to nothing left: the contract's tenth. */
const NEXT_TO_NOTHING = 0.1;
/** Samples looked at for which motor stood in the way how often. */
const ENOUGH_TO_COUNT = 20_000;

/**
 * Measures, per axis and direction, the moment that was still available, as a share of what is available that way in
 * hover, at every sample in the air (see `atRotorPace` for fast logs).
 */
export const authority: Detector<AuthorityEvidence> = {
  kind: "authority",
  missing(flight) {
    const commands = commandedMotors(flight).length > 0 ? [] : ["motor.N.command"];
    return [...commands, ...(flight.aircraft === null ? ["aircraft file: motors, command"] : [])];
  },
  detect(flight) {
    const series = authoritySeries(flight);
    return series === null ? [] : groupAuthority(series.axes.map((one) => measure(flight, series, one)));
  },
};

function measure(
  flight: Flight,
  series: AuthoritySeries,
  way: AuthoritySeries["axes"][number],
): Omit<AuthorityEvidence, "group" | "leads"> {
  const { motors, room, hover } = series;
  const { axis, direction, left } = way;
  const steps = authorityBySteps(flight, way);
  const { time, since, thrusts, stretches: ranges, interval } = motors;
  const least = lowestAt(left, 0, left.length);
  const next = episodesOf(since, ranges, interval, beyond(left, NEXT_TO_NOTHING, Number.POSITIVE_INFINITY));
  const scarceStretches = () =>
    episodesOf(since, ranges, interval, beyond(left, LITTLE, Number.POSITIVE_INFINITY)).stretches;
  const present = new Float64Array(thrusts.length);
  const motorAt = (k: number) => {
    for (let i = 0; i < thrusts.length; i++) present[i] = thrusts[i]![k]!;
    return room.binding(axis, DIRECTIONS[direction], present);
  };
  const counts = new Map<number, number>();
  const every = Math.ceil(left.length / ENOUGH_TO_COUNT);
  let scarce = 0;
  for (let k = 0; k < left.length; k += every) {
    if (left[k]! >= LITTLE) continue;
    scarce++;
    const motor = motorAt(k);
    counts.set(motor, (counts.get(motor) ?? 0) + 1);
  }
  const [p1, p5, p50] = quantiles(thinned(left), [0.01, 0.05, 0.5]);
  return {
    kind: "authority",
    axis,
    direction,
    start: next.stretches[0]?.start ?? time[0]!,
    end: next.stretches.at(-1)?.end ?? time.at(-1)!,
    stretches: next.stretches,
    leastAt: time[least]!,
    leastMotor: motorAt(least),
    binding: [...counts].map(([motor, count]) => ({ motor, share: count / scarce })).sort((a, b) => b.share - a.share),
    where: timeInPhases(next.stretches.length > 0 ? next.stretches : scarceStretches(), flight.phases),
    distribution: { p1: p1!, p5: p5!, p50: p50! },
    hoverFrom: hover.from,
    steps,
    confidence: 0.95,
    measures: {
      least: { value: left[least]!, unit: "1" },
      share: { value: next.share, unit: "1" },
      longest: { value: longestOf(next.stretches), unit: "s" },
      ...Object.fromEntries(steps.map((one) => [`median-${stepKey(one)}`, { value: one.median, unit: "1" }])),
    },
    perMotor: Object.fromEntries(
      steps.map((one) => [`least-${stepKey(one)}`, [{ motor: one.motor, value: one.least, unit: "1" }]]),
    ),
  };
}

const stepKey = ({ step }: StepAuthority) => (step === null ? "in-hover" : `at-step-${step}`);
