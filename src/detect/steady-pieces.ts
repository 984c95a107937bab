import { channelOf, type Flight, type Phase } from "../flight/index.ts";
import type { Series, Span } from "../log/channel.ts";
import { mean, wrapAngle } from "../signal/index.ts";
import { seriesWithin, valuesWithin } from "./air-time.ts";
import { thinned } from "./thinned.ts";

/** A piece of hover or of a leg in which speed and heading stay as they are. */
export interface SteadyPiece extends Span {
  /** m/s, 0 for hover */
  readonly speed: number;
  /** number of the speed step, null for hover */
  readonly step: number | null;
  /** 1 out (the way of the first leg), -1 back, 0 for hover and where legs do not lie on one line or no channel tells */
  readonly way: 1 | 0 | -1;
  /** V, mean, null where not logged */
  readonly voltage: number | null;
}

/** s; a shorter piece has no percentiles worth the name, and a shorter hover is the turn between two legs */
const SHORTEST_LEG = 3;
const SHORTEST_HOVER = 6;
/** s; a long hover is cut up, so that it shows what the battery's voltage does */
const HOVER_PIECE = 15;
/** rad; a nose that comes round uses up yaw control, and headroom with it */
const STILL = 0.2;
/** m/s^2; speeding up by more than this tilts the body by a degree or so */
const EVEN = 0.25;
/** legs within 25 deg of one line count as out and back */
const IN_LINE = 0.9;

/** The steady pieces of a flight, in order of time. */
export function steadyPieces(flight: Flight): SteadyPiece[] {
  const voltage = channelOf(flight, "battery.voltage")?.series;
  const found = flight.phases.flatMap((phase) => pieceSpans(flight, phase).map((span) => ({ phase, span })));
  const courses = found.map(({ phase, span }) => (phase.kind === "hover" ? null : courseIn(flight, span)));
  const first = courses.find((course) => course !== null) ?? null;
  const along = courses.map((course) => (course === null || first === null ? null : Math.cos(course - first)));
  const onOneLine = found.every(({ phase }, i) => phase.kind === "hover" || Math.abs(along[i] ?? 0) >= IN_LINE);
  return found.map(({ phase, span }, i) => ({
    ...span,
    speed: phase.kind === "hover" ? 0 : phase.speed!,
    step: phase.step,
    way: !onOneLine || along[i] === null ? 0 : along[i]! > 0 ? 1 : -1,
    voltage: meanIn(voltage, span),
  }));
}

/** Hovers and legs, turning or not: what all motors together carry in them is the weight. */
export function loadPieces(flight: Flight): SteadyPiece[] {
  const voltage = channelOf(flight, "battery.voltage")?.series;
  return flight.phases.flatMap(({ kind, start, end, speed, step }): SteadyPiece[] => {
    const isKnown = kind === "hover" || (kind === "cruise" && speed !== null && step !== null);
    if (!isKnown || end - start < SHORTEST_LEG) return [];
    const count = Math.max(1, Math.floor((end - start) / HOVER_PIECE));
    const each = (end - start) / count;
    return Array.from({ length: count }, (_, i) => {
      const span = { start: start + i * each, end: start + (i + 1) * each };
      return { ...span, speed: speed ?? 0, step, way: 0, voltage: meanIn(voltage, span) };
    });
  });
}

function meanIn(series: Series | undefined, span: Span): number | null {
  const values = series === undefined ? null : valuesWithin(series, [span]);
  return values === null || values.length === 0 ? null : mean(values);
}

function pieceSpans(flight: Flight, phase: Phase): Span[] {
  if (phase.kind === "hover") {
    const { start, end } = longestStill(flight, phase);
    if (end - start < SHORTEST_HOVER) return [];
    const count = Math.max(1, Math.floor((end - start) / HOVER_PIECE));
    const each = (end - start) / count;
    return Array.from({ length: count }, (_, i) => ({ start: start + i * each, end: start + (i + 1) * each }));
  }
  const isLeg = phase.kind === "cruise" && phase.speed !== null && phase.step !== null;
  return isLeg && phase.end - phase.start >= SHORTEST_LEG && isEven(flight, phase)
    ? [{ start: phase.start, end: phase.end }]
    : [];
}

/** The longest part of a span in which the nose stays within a fifth of a radian; the whole where no heading is logged. */
function longestStill(flight: Flight, { start, end }: Span): Span {
  const heading = (channelOf(flight, "heading") ?? channelOf(flight, "attitude.yaw.measured"))?.series;
  const inside = heading === undefined ? null : seriesWithin(heading, { start, end });
  if (inside === null || inside.values.length < 2) return { start, end };
  const { time, values } = inside;
  let best = { start, end: start };
  let from = 0;
  for (let to = 0; to < values.length; to++) {
    while (Math.abs(wrapAngle(values[to]! - values[from]!)) > STILL) from++;
    if (time[to]! - time[from]! > best.end - best.start) best = { start: time[from]!, end: time[to]! };
  }
  return best;
}

function isEven(flight: Flight, span: Span): boolean {
  const speed = (channelOf(flight, "speed.ground") ?? channelOf(flight, "speed.air"))?.series;
  if (speed === undefined) return true;
  const { time, values } = seriesWithin(speed, span);
  if (values.length < 3) return true;
  const [middleTime, middle] = [mean(time), mean(values)];
  let up = 0;
  let spread = 0;
  for (let i = 0; i < time.length; i++) {
    const apart = time[i]! - middleTime;
    up += apart * (values[i]! - middle);
    spread += apart * apart;
  }
  return Math.abs(up / spread) <= EVEN;
}

/** rad, the way over ground, else the way that the nose points; null where neither is logged. */
function courseIn(flight: Flight, span: Span): number | null {
  const [north, east] = [channelOf(flight, "velocity.north"), channelOf(flight, "velocity.east")];
  if (north !== undefined && east !== undefined) {
    const [a, b] = [valuesWithin(north.series, [span]), valuesWithin(east.series, [span])];
    if (a.length > 0 && b.length > 0) return Math.atan2(mean(b), mean(a));
  }
  const heading = channelOf(flight, "heading") ?? channelOf(flight, "attitude.yaw.measured");
  const angles = heading === undefined ? new Float64Array() : thinned(valuesWithin(heading.series, [span]));
  if (angles.length === 0) return null;
  return Math.atan2(mean(angles.map(Math.sin)), mean(angles.map(Math.cos)));
}
