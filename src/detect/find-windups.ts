import type { Span } from "../log/channel.ts";
import type { IndexRange } from "./air-time.ts";

/** What the search for wind-up looks at: n samples of one axis. */
export interface WindupSignals {
  readonly time: Float64Array;
  /** set point less response */
  readonly error: Float64Array;
  /** integral term, logged or rebuilt */
  readonly integral: Float64Array;
  /** 1 where a motor or the demand is at a limit, so that asking for more changes nothing */
  readonly isLimited: Uint8Array;
  /** half-open index ranges without a pause */
  readonly stretches: readonly IndexRange[];
}

export interface WindupOptions {
  /** largest size of the integral term, its unit; null where unknown */
  readonly limit: number | null;
  /** what counts as a full integral term where its limit is unknown, its unit */
  readonly scale: number;
  /** share of the limit from which the term counts as full, default 0.99; less for a term that is known less well */
  readonly full?: number;
  /** usual size of the error in calm flight, its unit: smaller errors push nothing */
  readonly calm: number;
}

/** One wind-up: the integral term was driven on although nothing more could be had. */
export interface Windup extends Span {
  readonly direction: 1 | -1;
  /** whether it ran into the integrator's own limit */
  readonly isAtOwnLimit: boolean;
  /** largest size of the integral term */
  readonly peak: number;
  /** how far the response ran past the set point after release, over the largest error before it; 0 if it did not */
  readonly overshoot: number;
  /** s from the error's change of sign until the integral term gave back most of what it had grown; null if it never did */
  readonly unwind: number | null;
}

/** The limit that truth and detector share: the integral term grew by a quarter of its whole range while limited. */
const GROWTH = 0.25;
/** s; limits that flicker (a motor that leaves its limit for a moment) are one */
const BRIDGE = 0.3;
/** s; shorter rests at the integrator's own limit are touches */
const SHORTEST_REST = 0.1;
/** Share of the integral term's limit that is the limit, rounding of the log allowed for. */
const NEARLY_FULL = 0.99;
/** What is left of the growth when it counts as unwound. */
const UNWOUND = 0.1;
/** s after release in which an overshoot belongs to the wind-up */
const LONGEST_RECOVERY = 20;

/**
 * Finds wind-up: while a motor or the demand is at a limit, or while the integral term rests at its own, the error
 * keeps one sign and drives the term on. A trim is never one: there the term is steady and the error about it small.
 *
 * @see Astrom and Hagglund, PID Controllers, 2nd ed., section 3.5
 */
export function findWindups(signals: WindupSignals, options: WindupOptions): Windup[] {
  const { time, isLimited, stretches } = signals;
  return stretches
    .flatMap(({ from, to }) => {
      const limited = runs(time, from, to, (i) => isLimited[i] === 1).flatMap((run) => grown(signals, options, run));
      return joined([...limited, ...rests(signals, options, from, to)]).map((run) => ({ run, to }));
    })
    .map(({ run, to }) => describe(signals, run, to));
}

interface Run extends IndexRange {
  readonly direction: 1 | -1;
  readonly isAtOwnLimit: boolean;
}

/** The parts of a limited run in which an error of one sign drove the term on by enough. */
function grown(signals: WindupSignals, { limit, scale, calm }: WindupOptions, run: IndexRange): Run[] {
  const { integral } = signals;
  const enough = GROWTH * (limit ?? scale);
  return ([1, -1] as const).flatMap((direction) =>
    climbs(integral, direction, run, enough)
      // Back from the other side is giving back; what counts is growth away from nothing.
      .filter(({ from, to }) => direction * integral[to - 1]! - Math.max(0, direction * integral[from]!) >= enough)
      .filter((climb) => meanError(signals, direction, climb) > calm)
      .map((climb) => ({ ...climb, direction, isAtOwnLimit: false })),
  );
}

/** Rises of at least `enough`, each from its lowest to its highest sample; half of that back down ends one. */
function climbs(values: Float64Array, direction: 1 | -1, { from, to }: IndexRange, enough: number): IndexRange[] {
  const found: IndexRange[] = [];
  let low = from;
  let top = from;
  const rise = (i: number) => direction * (values[i]! - values[low]!);
  for (let i = from; i <= to; i++) {
    if (i < to && rise(i) > rise(top)) top = i;
    if (i === to || rise(top) - rise(i) > enough / 2) {
      if (rise(top) >= enough) found.push({ from: low, to: top + 1 });
      low = i;
      top = i;
    } else if (rise(i) < 0) {
      low = i;
      top = i;
    }
  }
  return found;
}

function meanError({ error }: WindupSignals, direction: 1 | -1, { from, to }: IndexRange): number {
  let sum = 0;
  for (let i = from; i < to; i++) sum += direction * error[i]!;
  return sum / (to - from);
}

/** Rests at the term's own limit with an error that would drive it further. */
function rests(
  signals: WindupSignals,
  { limit, calm, full = NEARLY_FULL }: WindupOptions,
  from: number,
  to: number,
): Run[] {
  const { time, integral } = signals;
  if (limit === null) return [];
  return ([1, -1] as const).flatMap((direction) =>
    runs(time, from, to, (i) => direction * integral[i]! >= full * limit)
      .filter((run) => time[run.to - 1]! - time[run.from]! >= SHORTEST_REST)
      .filter((run) => {
        // The error that filled the term came just before: its own rest may already be the way back.
        let first = run.from;
        while (first > from && time[run.from]! - time[first - 1]! <= BRIDGE) first--;
        return meanError(signals, direction, { from: first, to: run.to }) > calm;
      })
      .map((run) => ({ ...run, direction, isAtOwnLimit: true })),
  );
}

/** Runs for which something holds; lapses shorter than `BRIDGE` are bridged. */
function runs(time: Float64Array, from: number, to: number, holds: (i: number) => boolean): IndexRange[] {
  const found: { from: number; to: number }[] = [];
  for (let i = from; i < to; i++) {
    if (!holds(i)) continue;
    const last = found.at(-1);
    if (last !== undefined && time[i]! - time[last.to - 1]! <= BRIDGE) last.to = i + 1;
    else found.push({ from: i, to: i + 1 });
  }
  return found;
}

function joined(found: readonly Run[]): Run[] {
  const whole: Run[] = [];
  for (const run of [...found].sort((a, b) => a.from - b.from)) {
    const last = whole.at(-1);
    if (last === undefined || run.from > last.to || run.direction !== last.direction) whole.push(run);
    else {
      whole[whole.length - 1] = {
        ...last,
        to: Math.max(last.to, run.to),
        isAtOwnLimit: last.isAtOwnLimit || run.isAtOwnLimit,
      };
    }
  }
  return whole;
}

function describe({ time, error, integral }: WindupSignals, run: Run, end: number): Windup {
  const { from, direction, isAtOwnLimit } = run;
  let before = 0;
  let peak = 0;
  let top = from;
  for (let i = from; i < run.to; i++) {
    before = Math.max(before, direction * error[i]!);
    peak = Math.max(peak, direction * integral[i]!);
    if (direction * integral[i]! >= direction * integral[top]!) top = i;
  }
  // Released when the error turns: from there on the term only has to be given back.
  let release = top;
  while (release < end && direction * error[release]! > 0) release++;
  const back = direction * integral[from]! + UNWOUND * direction * (integral[top]! - integral[from]!);
  let overshoot = 0;
  let unwound: number | null = null;
  for (let i = release; i < end && time[i]! - time[release]! <= LONGEST_RECOVERY; i++) {
    overshoot = Math.max(overshoot, -direction * error[i]!);
    if (unwound === null && direction * integral[i]! <= back) unwound = i;
    // Back where it began and following again: what comes later is another matter.
    if (unwound !== null && direction * error[i]! >= 0) break;
  }
  return {
    start: time[from]!,
    end: time[Math.min(run.to, end - 1)]!,
    direction,
    isAtOwnLimit,
    peak,
    overshoot: before > 0 ? overshoot / before : 0,
    unwind: unwound === null ? null : time[unwound]! - time[Math.min(release, end - 1)]!,
  };
}
