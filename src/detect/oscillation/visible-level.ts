import { quantile } from "../../signal/index.ts";
import { FRAME_CYCLES, type ToneTrack } from "./tone-map.ts";

/** From which amplitude on a tone stands out, and what decides that. */
export interface VisibleLevel {
  /** rad/s, amplitude */
  readonly level: number;
  /** rad/s, in-band rms of the flight's own calm; null where the log is too short to hold a calm stretch */
  readonly calm: number | null;
  /** so short a log that a frame's length smears an oscillation over most of it: the calm is then rather too high */
  readonly isCalmRough: boolean;
}

/** Times the calm in-band rms from which an oscillation is seen (the contract's advisory level) */
const CALM_RATIO = 3;
/** Frames without overlap from which a flight shows what its calm is. */
const CALM_FRAMES = 3;
/** Frames without overlap from which on an oscillation of some length leaves the calmest two fifths of them free. */
const MANY_FRAMES = 9;
/** Share of the frames that count as calm: an oscillation may fill the better half of a flight, most of a short one. */
const CALM_SHARE = { few: 0.15, many: 0.4 };
/** rad/s (1.1 deg/s): smaller motion is not felt, and sensors make as much */
const LEAST = 0.02;
/** Share of the absolute level at which a tone is looked at; whether it comes to the level is measured afterwards. */
const NEAR = 0.8;
/**
 * In-band rms over amplitude at the calm share: amplitudes of noise in a Hann frame are Rayleigh distributed with the
 * rms of 1.5 bins; the band an oscillation is measured in is 0.83 of its frequency wide.
 */
const rmsOfShare = (share: number) => Math.sqrt(0.83 / (1.5 / FRAME_CYCLES)) / Math.sqrt(-2 * Math.log(1 - share));

/**
 * The level of one frequency: three times the calm that the flight itself shows, never above what is an oscillation
 * whatever the calm (`absolute`, rad/s), since a flight that oscillates throughout shows no calm.
 */
export function visibleLevel({ frequency, step, amplitude }: ToneTrack, absolute: number): VisibleLevel {
  const frames = (amplitude.length * step * frequency) / FRAME_CYCLES;
  if (frames < CALM_FRAMES) return { level: NEAR * absolute, calm: null, isCalmRough: false };
  const isCalmRough = frames < MANY_FRAMES;
  const share = isCalmRough ? CALM_SHARE.few : CALM_SHARE.many;
  const calm = rmsOfShare(share) * quantile(amplitude, share);
  return { level: Math.min(levelOf(calm), NEAR * absolute), calm, isCalmRough };
}

/** rad/s: the amplitude that stands out from a calm of this in-band rms. */
export const levelOf = (calm: number) => Math.max(LEAST, CALM_RATIO * calm);

/** rad/s in-band rms of the calmest part of an envelope, which is Rayleigh distributed where there is noise alone. */
export const calmOf = (envelope: Float64Array) =>
  quantile(envelope, CALM_SHARE.few) / Math.sqrt(-2 * Math.log(1 - CALM_SHARE.few));
