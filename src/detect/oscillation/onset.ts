import type { Uniform } from "../../log/resample.ts";
import type { Estimate } from "../evidence.ts";
import { bandMotion } from "./band-motion.ts";
import type { EnvelopeTrend } from "./envelope-trend.ts";
import { extent } from "./extent.ts";

/**
 * Factors about the level within which the crossing may lie: noise moves it by 1.4, and the calm that a flight shows is
 * up to twice that of the same flight without the oscillation, never much less.
 */
const CROSSING_FACTOR = { early: 2.2, late: 1.5 };
/** Cycles for which the envelope may be below that before it began for good: it comes and goes at first. */
const EARLY_DIP_CYCLES = 2;
/** Cycles by which a filter that looks both ways smears a beginning. */
const SMEAR_CYCLES = 0.5;
/**
 * Times the growth's own time (in which it grows by e) by which a growing oscillation may have been there before: the calm
 * that holds no oscillation may be as much less than the one that the flight shows, and it grows the slower the less it
 * has left the noise behind. Of 80 simulated loops that lost their stability (seeds 5001 to 5040), 19 in 20 lie within.
 */
const EARLY = 1.1;
/** Cycles over which the envelope has to be well below what the growth would have had it, to show that there was none. */
const CALM_CYCLES = 3;
/** Factor by which the envelope has to sink from one such stretch to the one before to be still on its way down. */
const STILL_FALLING = 1.5;

/**
 * When an oscillation passed its visible level, s, with an interval for noise on the envelope, a calm that is known within
 * a factor of two, and the filter's smear. One that grows may have been there before, hidden in the calm: as far back
 * along its own growth as the envelope does not show that it was not.
 * @returns without `low` where the motion was there when the data began
 */
export function onsetOf(beginning: Beginning, trend: EnvelopeTrend): Estimate {
  const { envelope, from, level, piece, windowStart, rate, frequency } = beginning;
  const smear = SMEAR_CYCLES / frequency;
  const begun = extent(
    envelope,
    from,
    level / CROSSING_FACTOR.early,
    Math.round((EARLY_DIP_CYCLES * rate) / frequency),
  ).from;
  let late = from;
  while (late < envelope.length - 1 && envelope[late]! < level * CROSSING_FACTOR.late) late++;
  const value = windowStart + from / rate;
  const high = Math.max(value, windowStart + late / rate) + smear;
  if (begun === 0 && from < smear * rate) return { value, unit: "s", high };
  const early = Math.min(windowStart + begun / rate, value - hiddenTime(beginning, trend)) - smear;
  return { value, unit: "s", low: Math.max(piece.start, early), high };
}

/** s for which a growing oscillation may have been there, unseen, before it passed the level. */
function hiddenTime(
  { envelope, from, level, piece, windowStart, rate, frequency }: Beginning,
  { trend, growth }: EnvelopeTrend,
): number {
  if (trend !== "growing") return 0;
  const most = EARLY / growth.value;
  const length = Math.round((CALM_CYCLES * rate) / frequency);
  // The window may end short of that.
  const first = Math.round((windowStart - piece.start) * rate);
  const more = Math.min(first, Math.max(0, Math.ceil(most * rate) + 2 * length - from));
  const whole = more === 0 ? envelope : widerEnvelope(piece, first - more, first + envelope.length, frequency);
  const at = more + from;
  const squares = new Float64Array(at + 1);
  for (let k = 0; k < at; k++) squares[k + 1] = squares[k]! + whole[k]! ** 2;
  const before = (end: number) => Math.sqrt((squares[end]! - squares[end - length]!) / length);
  const earliest = Math.max(length, Math.round(at - most * rate));
  const isCalm = (end: number) =>
    before(end) < (level * Math.exp((-growth.value * (at - end + length / 2)) / rate)) / CROSSING_FACTOR.early;
  let end = at;
  while (end >= earliest && !isCalm(end)) end--;
  if (end < earliest) return most;
  // On down to the calm: the true level may be far below one that was taken for want of a calm.
  while (end > earliest && end >= 2 * length && before(end - length) < before(end) / STILL_FALLING) end--;
  return Math.min(most, (at - end) / rate);
}

const widerEnvelope = ({ values, rate }: Uniform, from: number, to: number, frequency: number) =>
  bandMotion(values.slice(from, to), rate, frequency).envelope;

/** An envelope that passes a level at an index. */
export interface Beginning {
  readonly envelope: Float64Array;
  readonly from: number;
  readonly level: number;
  /** the data without a gap, of which the envelope shows a part */
  readonly piece: Uniform;
  /** s, Hz, Hz */
  readonly windowStart: number;
  readonly rate: number;
  readonly frequency: number;
}
