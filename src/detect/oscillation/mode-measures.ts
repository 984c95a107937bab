import type { Uniform } from "../../log/resample.ts";
import type { Estimate } from "../evidence.ts";
import { type BandMotion, bandMotion } from "./band-motion.ts";
import { type EnvelopeTrend, envelopeTrend } from "./envelope-trend.ts";
import { extent } from "./extent.ts";
import { CLEAR_REGULARITY, regularityOf } from "./false-alarms.ts";
import type { Candidate } from "./find-candidates.ts";
import { modeFrequency } from "./mode-frequency.ts";
import { onsetOf } from "./onset.ts";
import { periodicity } from "./periodicity.ts";
import { calmOf, levelOf } from "./visible-level.ts";

/** One oscillating mode of an axis, measured. */
export interface ModeMeasures {
  /** s, from where the envelope passes the visible level to where it falls below it */
  readonly start: number;
  readonly end: number;
  /** s, interval of the start; without `low` where the motion was there when the data began */
  readonly onset: Estimate;
  readonly frequency: Estimate;
  /** rad/s, largest envelope */
  readonly amplitude: number;
  readonly trend: EnvelopeTrend;
  readonly cycles: number;
  /** cycles from where it left the floor to where it came back to it: half the visible level, where noise alone seldom is */
  readonly cyclesOffFloor: number;
  /** cycles in which the envelope kept above 0.3 of its largest: a knock that rings has few */
  readonly strongCycles: number;
  /** see `periodicity` */
  readonly periodicity: number;
  /** cycles in which that was looked at */
  readonly cyclesLookedAt: number;
  /** rad/s in-band rms of the flight's calm; null where the log holds none */
  readonly calm: number | null;
  readonly candidate: Candidate;
  /** rad/s, the motion over a window about the mode, and in the mode's band */
  readonly values: Float64Array;
  readonly band: BandMotion;
  /** s, of the window's first value; Hz, values per second; range of the mode in the window */
  readonly windowStart: number;
  readonly rate: number;
  readonly from: number;
  readonly to: number;
}

/** Cycles on either side of a candidate in which its beginning and end are looked for. */
const MARGIN_CYCLES = 10;
/** Factor by which the margin widens where the oscillation goes on beyond it. */
const WIDER = 4;
/** Cycles for which the envelope may dip below the level without ending the oscillation. */
const DIP_CYCLES = 1;
/** Cycles at an end of the data in which an envelope is too rough to be the largest one. */
const ROUGH_CYCLES = 0.5;
const STRONG = 0.3;
/** Share of the visible level at which motion has sunk back among the calm: one and a half times its rms. */
const FLOOR = 0.5;
/** Fewest cycles in which a motion is asked whether it repeats itself, if so many are off the floor. */
const LOOKED_AT_CYCLES = 5;
/** s from which a swing is slow; what is over sooner has to show all its cycles, as a burst or a knock does not */
export const SLOW = 3;
/** Samples that the band-pass needs. */
const FEWEST_SAMPLES = 24;

/** Measures a candidate: begin and end, frequency, size, growth; null where nothing stands out after all. */
export function modeMeasures(piece: Uniform, candidate: Candidate): ModeMeasures | null {
  for (let cycles = MARGIN_CYCLES; ; cycles *= WIDER) {
    const measures = measureWithin(piece, candidate, cycles / candidate.frequency);
    if (measures !== CUT_OFF) return measures;
  }
}

/** The oscillation goes on beyond the margin. */
const CUT_OFF = "cut off";

/** Measures within a margin in s about the candidate. */
function measureWithin(piece: Uniform, candidate: Candidate, margin: number): ModeMeasures | null | typeof CUT_OFF {
  const { start: pieceStart, rate } = piece;
  const first = Math.max(0, Math.floor((candidate.start - margin - pieceStart) * rate));
  const last = Math.min(piece.values.length, Math.ceil((candidate.end + margin - pieceStart) * rate));
  const values = piece.values.slice(first, last);
  if (values.length < FEWEST_SAMPLES) return null;
  const windowStart = pieceStart + first / rate;
  const indexOf = (time: number) => Math.round((time - windowStart) * rate);
  const inside = {
    from: Math.max(0, indexOf(candidate.start)),
    to: Math.min(values.length, indexOf(candidate.end)),
  };
  const rough = bandMotion(values, rate, candidate.frequency);
  const near = modeFrequency(rough, rate, inside.from, inside.to, candidate.frequency);
  const band = bandMotion(values, rate, near.value);
  const frame = Math.round((ROUGH_CYCLES * rate) / near.value);
  const firm = { from: first === 0 ? frame : 0, to: values.length - (last === piece.values.length ? frame : 0) };
  const peak = largest(band.envelope, Math.max(inside.from, firm.from), Math.min(inside.to, firm.to));
  if (peak === -1) return null;
  const amplitude = band.envelope[peak]!;
  const calm = candidate.isCalmRough ? Math.min(calmOf(band.envelope), candidate.calm ?? Infinity) : candidate.calm;
  const level = Math.min(
    candidate.level,
    calm === null ? Infinity : levelOf(calm, candidate.calmRatio),
    0.9 * amplitude,
  );
  const dip = Math.round((DIP_CYCLES * rate) / near.value);
  const above = extent(band.envelope, peak, level, dip);
  const { to } = above;
  if ((above.from === 0 && first > 0) || (to === values.length && last < piece.values.length)) return CUT_OFF;
  const trendFrom = (start: number) =>
    envelopeTrend(band.envelope, rate, {
      from: Math.max(start, firm.from),
      to: Math.min(to, firm.to),
      peak,
      frequency: near.value,
    });
  const crossing = trendFrom(above.from);
  const isGrowing = crossing.trend === "growing";
  const rise = Math.round((RISE_CYCLES * rate) / near.value);
  const from = isGrowing ? above.from : abruptStart(band.envelope, above, rise);
  const offFloor = extent(band.envelope, peak, FLOOR * level, dip);
  const frequency = modeFrequency(band, rate, from, to, near.value);
  const lookedAt = (range: { from: number; to: number }) => {
    const looked = widened(range, offFloor, Math.round((LOOKED_AT_CYCLES * rate) / frequency.value));
    return {
      periodicity: periodicity(values, rate, frequency.value, { ...looked, mayDrift: isGrowing }),
      cyclesLookedAt: ((looked.to - looked.from) / rate) * frequency.value,
    };
  };
  const whole = lookedAt(above);
  // What a knock set swinging goes on as a wave does, if it is slow; a stick's steps do not.
  const ringing = from > above.from && to - from >= SLOW * rate ? lookedAt({ from, to }) : whole;
  const isClear = regularityOf(ringing) >= CLEAR_REGULARITY;
  const trend = from === above.from ? crossing : { ...trendFrom(from), rise: crossing.rise };
  return {
    start: windowStart + from / rate,
    end: windowStart + (to - 1) / rate,
    onset: onsetOf(
      { envelope: band.envelope, from, level, piece, windowStart, rate, frequency: frequency.value },
      trend,
    ),
    frequency,
    amplitude,
    trend,
    cycles: ((to - from) / rate) * frequency.value,
    cyclesOffFloor: ((offFloor.to - offFloor.from) / rate) * frequency.value,
    strongCycles:
      (band.envelope.subarray(from, to).filter((value) => value > STRONG * amplitude).length / rate) * frequency.value,
    ...(isClear ? ringing : whole),
    calm,
    candidate,
    values,
    band,
    windowStart,
    rate,
    from,
    to,
  };
}

/** A range with room for a number of values, as far as the range around it goes: later ones first. */
function widened(range: { from: number; to: number }, around: { from: number; to: number }, count: number) {
  const to = Math.min(around.to, Math.max(range.to, range.from + count));
  return { from: Math.max(around.from, Math.min(range.from, to - count)), to };
}

function largest(values: Float64Array, from: number, to: number): number {
  let best = -1;
  for (let i = from; i < to; i++) if (best === -1 || values[i]! > values[best]!) best = i;
  return best;
}

/** Cycles that an abrupt beginning takes at most to pass the filter. */
const RISE_CYCLES = 2.5;

/**
 * Where something that was there all at once began: a filter that looks both ways spreads a step alike to either side, so
 * that its envelope passes half the size then.
 */
function abruptStart(envelope: Float64Array, { from, to }: { from: number; to: number }, rise: number): number {
  const early = envelope[largest(envelope, from, Math.min(to, from + rise))]!;
  let at = from;
  while (envelope[at]! < early / 2) at++;
  return at;
}
