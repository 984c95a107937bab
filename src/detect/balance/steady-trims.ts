import type { Aircraft } from "../../aircraft/index.ts";
import { channelOf, type Flight, onceAFlight } from "../../flight/index.ts";
import type { Series } from "../../log/channel.ts";
import { mean } from "../../signal/index.ts";
import { valuesWithin } from "../air-time.ts";
import { type Layout, layoutOf } from "./load-shares.ts";
import { type MeanShares, meanShares } from "./mean-shares.ts";
import { type SteadyCondition, steadyConditions } from "./steady-conditions.ts";
import { type ThrustDemand, thrustDemand } from "./thrust-demand.ts";

/** The mean thrust shares of one steady condition. */
export interface Trim extends MeanShares {
  readonly condition: SteadyCondition;
  /** V, mean of the battery, null where not logged */
  readonly voltage: number | null;
}

/** Every steady trim of a flight, with what it was worked out from. */
export interface SteadyTrims {
  readonly layout: Layout;
  readonly from: ThrustDemand["from"];
  readonly voltageExponent: number;
  /** hover first, then by speed step, legs out before legs back */
  readonly trims: readonly Trim[];
}

/**
 * Averages the motors' thrust shares over every steady condition of a flight. Computed once a flight.
 * @param options `commandOnly` leaves logged rotor speeds aside, to compare with a flight that has none
 * @returns null without an aircraft file or the motors' commands; `trims` may be empty
 */
export function steadyTrims(flight: Flight, { commandOnly = false } = {}): SteadyTrims | null {
  return commandOnly ? byCommand(flight) : byDemand(flight);
}

const byDemand = onceAFlight((flight) => trimsOf(flight, thrustDemand(flight)));
const byCommand = onceAFlight((flight) => trimsOf(flight, thrustDemand(flight, { commandOnly: true })));

function trimsOf(flight: Flight, demand: ThrustDemand | null): SteadyTrims | null {
  if (demand === null) return null;
  const layout = layoutOf(flight.aircraft as Aircraft);
  const trims = steadyConditions(flight).flatMap((condition): Trim[] => {
    const { spans } = condition;
    const shares = meanShares(
      demand.within({ start: spans[0]!.start, end: spans.at(-1)!.end }),
      layout.maxThrust,
      spans,
      condition.kind === "hover" ? driftOf(flight) : [],
    );
    return shares === null ? [] : [{ ...shares, condition, voltage: voltageIn(flight, condition) }];
  });
  return { layout, from: demand.from, voltageExponent: demand.voltageExponent, trims };
}

/** Velocities along two axes; of the body where logged, else over ground (the nose hardly turns in one hover). */
function driftOf(flight: Flight): Series[] {
  for (const names of [
    ["velocity.forward", "velocity.right"],
    ["velocity.north", "velocity.east"],
  ]) {
    const channels = names.map((name) => channelOf(flight, name));
    if (channels.every((channel) => channel !== undefined)) return channels.map((channel) => channel!.series);
  }
  return [];
}

function voltageIn(flight: Flight, { spans }: SteadyCondition): number | null {
  const battery = channelOf(flight, "battery.voltage");
  const values = battery === undefined ? new Float64Array() : valuesWithin(battery.series, spans);
  return values.length === 0 ? null : mean(values);
}

/**
 * Trims without the wind: legs out and back of one speed step count alike and are averaged, so that what only the
 * direction of the wind made cancels. Hover stays as it is; so does a step flown one way only.
 */
export function withoutWind(trims: readonly Trim[]): Trim[] {
  const steps = new Map<number | null, Trim[]>();
  for (const trim of trims) steps.set(trim.condition.step, [...(steps.get(trim.condition.step) ?? []), trim]);
  return [...steps.values()].flatMap((ofStep) =>
    ofStep.length === 2 && ofStep[0]!.condition.step !== null ? [averaged(ofStep[0]!, ofStep[1]!)] : ofStep,
  );
}

function averaged(a: Trim, b: Trim): Trim {
  const half = (of: (trim: Trim) => number) => (of(a) + of(b)) / 2;
  return {
    condition: {
      ...a.condition,
      direction: null,
      speed: half(({ condition }) => condition.speed!),
      spans: [...a.condition.spans, ...b.condition.spans].sort((p, q) => p.start - q.start),
    },
    shares: a.shares.map((share, i) => (share + b.shares[i]!) / 2),
    covariance: {
      ...a.covariance,
      data: a.covariance.data.map((value, at) => (value + b.covariance.data[at]!) / 4),
    },
    degreesOfFreedom: a.degreesOfFreedom + b.degreesOfFreedom,
    demand: half(({ demand }) => demand),
    seconds: a.seconds + b.seconds,
    voltage: a.voltage === null || b.voltage === null ? null : half(({ voltage }) => voltage!),
  };
}
