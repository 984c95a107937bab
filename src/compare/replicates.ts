import { steadyConditions } from "../detect/index.ts";
import { channelOf, type Flight } from "../flight/index.ts";
import type { Span } from "../log/index.ts";
import { meanOver } from "./mean-over.ts";

/** One leg of cruise, or one piece of hover: what counts as one independent look at a condition. */
export interface Replicate extends Span {
  /** 1 the way of the flight's first leg, -1 against it; null in hover and where nothing tells */
  readonly direction: 1 | -1 | null;
  /** m/s over ground, forward of the nose where the heading is known; null where not logged */
  readonly ground: GroundSpeed | null;
}

/** Mean velocity over ground: its size, and its parts where the log has them. */
export interface GroundSpeed {
  readonly speed: number;
  readonly north: number | null;
  readonly east: number | null;
}

/** What was flown steadily at one speed, with every replicate of it. */
export interface FlownCondition {
  readonly kind: "hover" | "cruise" | "flight";
  /** m/s, mean over the legs; 0 in hover, null where unknown */
  readonly speed: number | null;
  readonly replicates: readonly Replicate[];
}

/** s; a shorter leg has no percentiles worth the name */
const SHORTEST_LEG = 3;
/**
 * s left off at the start and end of a stretch that is long enough: the last of speeding up still lies within a step's
 * tolerance, and a turn or a climb rings on into hover
 */
const ENDS = { cruise: { start: 1.5, end: 1.5 }, hover: { start: 3, end: 1 } };
/** A hover at least so long as this share of the longest is a hover, a shorter one the pause between two legs. */
const SHORTEST_HOVER = 0.5;
/** s, pieces that hover is cut into: about twelve, none so short that its neighbours tell the same again */
const PIECE = { shortest: 1, longest: 10, count: 12 };

/** The steady conditions of a flight, hover first, then cruise by speed. */
export function flownConditions(flight: Flight): FlownCondition[] {
  const steady = steadyConditions(flight);
  const still = steady.filter(({ kind }) => kind !== "cruise");
  const speeds = new Map<number, Replicate[]>();
  for (const { step, spans } of steady.filter(({ kind }) => kind === "cruise")) {
    const legs = spans
      .map((span) => withoutEnds(span, ENDS.cruise))
      .filter(({ start, end }) => end - start >= SHORTEST_LEG);
    const known = speeds.get(step!) ?? [];
    speeds.set(step!, [
      ...known,
      ...legs.map((leg) => ({ ...leg, direction: null, ground: groundSpeed(flight, leg) })),
    ]);
  }
  const cruise = [...speeds.values()]
    .filter((legs) => legs.length > 0)
    .map((legs): FlownCondition => {
      const inTime = legs.toSorted((a, b) => a.start - b.start);
      const known = inTime.flatMap(({ ground }) => ground?.speed ?? []);
      const speed = known.length === 0 ? null : known.reduce((sum, value) => sum + value, 0) / known.length;
      return { kind: "cruise", speed, replicates: inTime };
    })
    .sort((a, b) => (a.speed ?? 0) - (b.speed ?? 0));
  const hover = still.map(
    ({ kind, speed, spans }): FlownCondition => ({
      kind,
      speed,
      replicates: piecesOf(spans).map((span) => ({ ...span, direction: null, ground: groundSpeed(flight, span) })),
    }),
  );
  return withDirections(flight, [...hover, ...cruise]).filter(({ replicates }) => replicates.length > 0);
}

function withoutEnds({ start, end }: Span, ends: { start: number; end: number }): Span {
  const left = end - ends.end - (start + ends.start);
  return left < SHORTEST_LEG ? { start, end } : { start: start + ends.start, end: end - ends.end };
}

function piecesOf(spans: readonly Span[]): Span[] {
  const length = ({ start, end }: Span) => end - start;
  const longest = Math.max(0, ...spans.map(length));
  const long = spans.filter((span) => length(span) >= SHORTEST_HOVER * longest);
  const used = long.map((span) => withoutEnds(span, ENDS.hover));
  const total = used.reduce((sum, span) => sum + length(span), 0);
  const piece = Math.min(PIECE.longest, Math.max(PIECE.shortest, total / PIECE.count));
  return used.flatMap((span) => {
    const count = Math.max(length(span) >= PIECE.shortest ? 1 : 0, Math.floor(length(span) / piece + 1e-9));
    return Array.from({ length: count }, (_, k) => ({
      start: span.start + (k * length(span)) / count,
      end: span.start + ((k + 1) * length(span)) / count,
    }));
  });
}

function groundSpeed(flight: Flight, span: Span): GroundSpeed | null {
  const mean = (name: string) => {
    const channel = channelOf(flight, name);
    return channel === undefined ? null : meanOver([channel], span, (value) => value!);
  };
  const [north, east] = [mean("velocity.north"), mean("velocity.east")];
  if (north !== null && east !== null) return { speed: Math.hypot(north, east), north, east };
  const speed = mean("speed.ground");
  const heading = meanHeading(flight, span);
  if (speed !== null && heading !== null) {
    return { speed, north: speed * Math.cos(heading), east: speed * Math.sin(heading) };
  }
  const [forward, right] = [mean("velocity.forward"), mean("velocity.right")];
  if (forward !== null && right !== null) {
    const [north, east] =
      heading === null
        ? [null, null]
        : [
            forward * Math.cos(heading) - right * Math.sin(heading),
            forward * Math.sin(heading) + right * Math.cos(heading),
          ];
    return { speed: Math.hypot(forward, right), north, east };
  }
  return speed === null ? null : { speed, north: null, east: null };
}

/** rad, mean heading through its sine and cosine; null where not logged */
export function meanHeading(flight: Flight, span: Span): number | null {
  const channel = channelOf(flight, "heading") ?? channelOf(flight, "attitude.yaw.measured");
  if (channel === undefined) return null;
  const [sine, cosine] = [Math.sin, Math.cos].map((part) => meanOver([channel], span, (value) => part(value!)));
  return sine === null || cosine === null ? null : Math.atan2(sine!, cosine!);
}

/** Tells legs out from legs back by their course, where it is known, seen from the leg that was flown first. */
function withDirections(flight: Flight, conditions: readonly FlownCondition[]): FlownCondition[] {
  const legs = conditions.filter(({ kind }) => kind === "cruise").flatMap(({ replicates }) => replicates);
  const courseOf = (leg: Replicate) => {
    if (leg.ground !== null && leg.ground.north !== null) return [leg.ground.north, leg.ground.east!] as const;
    const heading = meanHeading(flight, leg);
    return heading === null ? null : ([Math.cos(heading), Math.sin(heading)] as const);
  };
  const first = legs.toSorted((a, b) => a.start - b.start)[0];
  const course = first === undefined ? null : courseOf(first);
  if (course === null) return [...conditions];
  return conditions.map((condition) =>
    condition.kind !== "cruise"
      ? condition
      : {
          ...condition,
          replicates: condition.replicates.map((leg) => {
            const own = courseOf(leg);
            const along = own === null ? 0 : own[0] * course[0] + own[1] * course[1];
            return { ...leg, direction: own === null ? null : along >= 0 ? 1 : -1 };
          }),
        },
  );
}
