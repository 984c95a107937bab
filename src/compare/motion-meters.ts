import { AXES, type Axis } from "../aircraft/index.ts";
import { bandMotion } from "../detect/index.ts";
import { channelOf, type Flight } from "../flight/index.ts";
import type { Span } from "../log/index.ts";
import { uniformPieces } from "../log/uniform-pieces.ts";
import { autoregression, autoregressiveModes, type Mode, quantile } from "../signal/index.ts";
import type { Meter } from "./quantity.ts";

/** Hz at which an axis' rate is looked at: its own oscillations lie well below half of this */
const RATE = 20;
/** Hz; slower is following the path, faster is vibration */
const BAND = { low: 0.4, high: 6 };
/** Two pairs of poles for the axis, two for what shakes it and for the sensor's noise (common practice). */
const ORDER = 8;
/** s; a shorter stretch does not tell a damping ratio */
const SHORTEST = 6;
/** A mode of one leg this factor or more from the axis' usual frequency is another mode. */
const SAME_MODE = 1.6;

/** The rate of an axis on a steady clock, piece by piece between gaps. */
function rateWithin(flight: Flight, axis: Axis, span: Span): Float64Array[] {
  const channel = channelOf(flight, `rate.${axis}.measured`);
  if (channel === undefined || channel.rate < RATE || span.end - span.start < SHORTEST) return [];
  return uniformPieces(channel, span, RATE)
    .map(({ values }) => values)
    .filter((values) => values.length >= SHORTEST * RATE);
}

function modesOf(pieces: readonly Float64Array[]): Mode[] {
  if (pieces.length === 0 || pieces.every((piece) => piece.every((value) => value === piece[0]))) return [];
  const model = autoregression(pieces, ORDER, { method: "burg" });
  return autoregressiveModes(model, RATE).filter(
    ({ frequency }) => frequency.value > BAND.low && frequency.value < BAND.high,
  );
}

/**
 * The frequency at which each axis swings by itself, from the autoregressive model of all stretches of both flights
 * together: the least damped mode between 0.4 and 6 Hz.
 * @returns Hz by axis; an axis without a mode, or whose rate is not logged on both sides, has none
 */
export function commonModes(
  before: { readonly flight: Flight; readonly spans: readonly Span[] },
  after: { readonly flight: Flight; readonly spans: readonly Span[] },
): Map<string, number> {
  const found = new Map<string, number>();
  for (const axis of AXES) {
    const sides = [before, after].map(({ flight, spans }) => spans.flatMap((span) => rateWithin(flight, axis, span)));
    if (sides.some((pieces) => pieces.length === 0)) continue;
    const mode = modesOf(sides.flat())[0];
    if (mode !== undefined) found.set(axis, mode.frequency.value);
  }
  return found;
}

/**
 * Size and damping of the motion at an axis' own frequency: the 95th percentile of its envelope in a band about it,
 * and the damping ratio of the mode nearest to it in an autoregressive model of the leg (Burg).
 */
export function motionMeters(flight: Flight, modes: ReadonlyMap<string, number>): Meter[] {
  return AXES.flatMap((axis): Meter[] => {
    const frequency = modes.get(axis);
    if (frequency === undefined) return [];
    const common = { table: axis, axis } as const;
    return [
      {
        quantity: { key: "swing", unit: "rad/s", scale: "ratio", better: "less", ...common },
        measure(span) {
          const pieces = rateWithin(flight, axis, span).map((values) => bandMotion(values, RATE, frequency).envelope);
          const envelope = Float64Array.from(pieces.flatMap((piece) => Array.from(piece)));
          const size = envelope.length === 0 ? 0 : quantile(envelope, 0.95);
          return size > 0 ? size : null;
        },
      },
      {
        quantity: { key: "damping", unit: "1", scale: "difference", better: "more", ...common },
        measure: (span) => nearestMode(modesOf(rateWithin(flight, axis, span)), frequency)?.dampingRatio.value ?? null,
      },
    ];
  });
}

function nearestMode(modes: readonly Mode[], frequency: number): Mode | undefined {
  const distance = (mode: Mode) => Math.abs(Math.log(mode.frequency.value / frequency));
  return modes.filter((mode) => distance(mode) < Math.log(SAME_MODE)).sort((a, b) => distance(a) - distance(b))[0];
}

/** Every mode of an axis in one stretch, for a look at modes that approach each other. */
export function axisModes(flight: Flight, axis: Axis, span: Span): Mode[] {
  return modesOf(rateWithin(flight, axis, span));
}
