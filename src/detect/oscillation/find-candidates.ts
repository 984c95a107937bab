import { FRAME_CYCLES, type ToneTrack } from "./tone-map.ts";
import { visibleLevel } from "./visible-level.ts";

/** A run of frames in which one frequency stood out; what it is remains to be measured. */
export interface Candidate {
  /** Hz */
  readonly frequency: number;
  /** index of the piece */
  readonly piece: number;
  /** s */
  readonly start: number;
  readonly end: number;
  /** rad/s, largest amplitude of a frame */
  readonly peak: number;
  /** rad/s */
  readonly level: number;
  readonly calm: number | null;
  readonly isCalmRough: boolean;
  /** times the calm from which on motion stands out */
  readonly calmRatio: number;
}

/** Hz; slower motion is flying, not oscillating (the contract's lower end) */
export const LOWEST = 0.2;
/** Fewest cycles that a run has to last: three, if it grows (the contract). */
const FEWEST_CYCLES = 3;
/** Candidates this near in frequency (octaves) are one, if the larger lasts for most of the other's time: a knock does not hide a swing. */
const SAME_OCTAVES = 0.9;
const SAME_TIME = 0.5;
/** Most that are measured; an oscillation in several pieces takes one each. */
const MOST = 12;

/** Amplitude, rad/s, that is an oscillation whatever the calm: 20 deg/s or 3 deg, whichever the frequency meets first. */
export function absoluteLevel(frequency: number, rate: number, angle: number): number {
  return Math.min(rate, angle * 2 * Math.PI * frequency);
}

/** Runs of frames above the visible level, largest (against the absolute level) first, each mode once. */
export function findCandidates(
  tracks: readonly ToneTrack[],
  absolute: (frequency: number) => number,
  calmRatio: number,
): Candidate[] {
  const runs = tracks.flatMap((track) => runsOf(track, absolute(track.frequency), calmRatio));
  const size = ({ peak, frequency }: Candidate) => peak / absolute(frequency);
  const kept: Candidate[] = [];
  for (const run of runs.sort((a, b) => size(b) - size(a))) {
    const isKnown = kept.some(
      (other) =>
        Math.abs(Math.log2(other.frequency / run.frequency)) < SAME_OCTAVES &&
        overlap(other, run) > SAME_TIME * (run.end - run.start),
    );
    if (!isKnown) kept.push(run);
    if (kept.length >= MOST) break;
  }
  return kept;
}

const overlap = (a: Candidate, b: Candidate) => Math.min(a.end, b.end) - Math.max(a.start, b.start);

function runsOf(track: ToneTrack, absolute: number, calmRatio: number): Candidate[] {
  const { frequency, time, amplitude, piece } = track;
  const { level, calm, isCalmRough } = visibleLevel(track, absolute, calmRatio);
  const runs: Candidate[] = [];
  // A frame sees half its length beyond its middle; a tone that fills a quarter of it on either side shows.
  const reach = FRAME_CYCLES / 4 / frequency;
  for (let from = 0; from < time.length; ) {
    if (amplitude[from]! < level) {
      from++;
      continue;
    }
    let to = from + 1;
    let peak = amplitude[from]!;
    while (to < time.length && piece[to] === piece[from] && amplitude[to]! >= level) {
      peak = Math.max(peak, amplitude[to]!);
      to++;
    }
    const [start, end] = [time[from]! - reach, time[to - 1]! + reach];
    if ((end - start) * frequency >= FEWEST_CYCLES)
      runs.push({ frequency, piece: piece[from]!, start, end, peak, level, calm, isCalmRough, calmRatio });
    from = to;
  }
  return runs;
}
