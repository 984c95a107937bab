import { channelOf, type Flight, type Phase } from "../../flight/index.ts";
import type { Span } from "../../log/channel.ts";
import { mean } from "../../signal/index.ts";
import { valuesWithin } from "../air-time.ts";

/** Which way along the field a leg was flown, seen from the first leg. */
export type LegDirection = "out" | "back";

/** Steady flight of one sort: all hover, or all legs of one speed step in one direction. */
export interface SteadyCondition {
  /** `flight`: air time of which no channel tells what it was */
  readonly kind: "hover" | "cruise" | "flight";
  /** m/s, mean over the stretches; 0 in hover, null where unknown */
  readonly speed: number | null;
  readonly step: number | null;
  readonly direction: LegDirection | null;
  readonly spans: readonly Span[];
}

/** m/s; slower than this the air's pull is lost in the trim of hover (drag below a percent of the weight) */
const SLOW = 1.5;
/** s left off where a stretch borders on take-off, landing or another kind of phase: the trim is still settling */
const SETTLING = 0.5;
/** s; a shorter rest says nothing */
const SHORTEST = 1;
/** s; a shorter hover beside a turn or a leg is a rest in which the trim of yaw and pitch is still on its way */
const LONGEST_REST = 6;

/**
 * The steady stretches of a flight, sorted: hover (slow drifting counts as hover), then each speed step of cruise by
 * direction of the leg. Climb, descent, turns and accelerations are left out. Where nothing tells what the aircraft
 * did, the whole air time stands in.
 */
export function steadyConditions(flight: Flight): SteadyCondition[] {
  const conditions: SteadyCondition[] = [];
  const hover = flight.phases.filter(isHover);
  if (hover.length > 0) {
    const spans = settled(flight, withoutRests(flight, joined(hover)));
    conditions.push({ kind: "hover", speed: 0, step: null, direction: null, spans });
  }
  const legs = flight.phases.filter((phase) => phase.kind === "cruise" && phase.step !== null && !isHover(phase));
  const first = courseOf(flight, legs);
  for (const step of [...new Set(legs.map((leg) => leg.step!))].sort((a, b) => a - b)) {
    const ofStep = legs.filter((leg) => leg.step === step);
    for (const direction of first === null ? [null] : (["out", "back"] as const)) {
      const spans = ofStep.filter((leg) => direction === null || directionOf(flight, leg, first!) === direction);
      if (spans.length === 0) continue;
      const speed = mean(Float64Array.from(spans, (leg) => leg.speed!));
      conditions.push({ kind: "cruise", speed, step, direction, spans: settled(flight, spans) });
    }
  }
  const found = conditions.filter(({ spans }) => spans.length > 0);
  if (found.length > 0) return found;
  const unknown = settled(
    flight,
    flight.phases.filter(({ kind }) => kind === "unknown"),
  );
  return unknown.length === 0 ? [] : [{ kind: "flight", speed: null, step: null, direction: null, spans: unknown }];
}

const isHover = (phase: Phase) =>
  phase.kind === "hover" || (phase.kind === "cruise" && phase.speed !== null && phase.speed < SLOW);

/** Neighbouring spans as one, so that nothing is cut off between them. */
function joined(spans: readonly Span[]): Span[] {
  const result: { start: number; end: number }[] = [];
  for (const { start, end } of spans) {
    const last = result.at(-1);
    if (last !== undefined && start - last.end < 1e-6) last.end = end;
    else result.push({ start, end });
  }
  return result;
}

/** Hovers without the short rests between turns and legs, unless there are only those. */
function withoutRests({ phases }: Flight, hovers: readonly Span[]): readonly Span[] {
  const moving = phases.filter((phase) => phase.kind === "turn" || (phase.kind === "cruise" && !isHover(phase)));
  const isBeside = (hover: Span) =>
    moving.some(({ start, end }) => Math.abs(start - hover.end) < 1e-6 || Math.abs(end - hover.start) < 1e-6);
  const proper = hovers.filter((hover) => hover.end - hover.start > LONGEST_REST || !isBeside(hover));
  return proper.length > 0 ? proper : hovers;
}

/** Spans without their settling ends; next to the ground twice as much is left off. */
function settled({ airborne }: Flight, spans: readonly Span[]): Span[] {
  const atGround = (time: number) =>
    airborne.some(({ start, end }) => Math.min(Math.abs(time - start), Math.abs(time - end)) < 0.2);
  const margin = (time: number) => (atGround(time) ? 2 * SETTLING : SETTLING);
  return spans
    .map(({ start, end }) => ({ start: start + margin(start), end: end - margin(end) }))
    .filter(({ start, end }) => end - start >= SHORTEST);
}

type Course = readonly [number, number];

function courseOf(flight: Flight, legs: readonly Span[]): Course | null {
  const first = legs[0];
  return first === undefined ? null : meanCourse(flight, first);
}

function meanCourse(flight: Flight, span: Span): Course | null {
  const components = ["velocity.north", "velocity.east"].map((name) => {
    const channel = channelOf(flight, name);
    const values = channel === undefined ? new Float64Array() : valuesWithin(channel.series, [span]);
    return values.length === 0 ? null : mean(values);
  });
  const [north, east] = components;
  return north === null || east === null ? null : [north!, east!];
}

function directionOf(flight: Flight, leg: Span, first: Course): LegDirection {
  const course = meanCourse(flight, leg) ?? first;
  return course[0] * first[0] + course[1] * first[1] >= 0 ? "out" : "back";
}
