import { quantile } from "../../signal/index.ts";
import { FRAME_CYCLES, type ToneTrack } from "./tone-map.ts";

/** From which amplitude on a tone stands out, and what decides that. */
export interface VisibleLevel {
  /** rad/s, amplitude */
  readonly level: number;
  /** rad/s, in-band rms of the flight's own calm; null where the log is too short to hold a calm stretch */
  readonly calm: number | null;
}

/** Times the calm in-band rms from which an oscillation is seen (the contract's advisory level) */
const CALM_RATIO = 3;
/** Frames without overlap from which a flight shows what its calm is. */
const CALM_FRAMES = 7;
/** Share of the frames that count as calm: an oscillation may fill the better half of a flight. */
const CALM_SHARE = 0.4;
/** rad/s (1.7 deg/s): smaller motion is not felt, and sensors make as much */
const LEAST = 0.03;
/** Share of the absolute level at which a tone is looked at; whether it comes to the level is measured afterwards. */
const NEAR = 0.8;
/**
 * In-band rms over amplitude at the calm share: amplitudes of noise in a Hann frame are Rayleigh distributed with the
 * rms of 1.5 bins; the band an oscillation is measured in is 0.83 of its frequency wide.
 */
const RMS_OF_SHARE = Math.sqrt(0.83 / (1.5 / FRAME_CYCLES)) / Math.sqrt(-2 * Math.log(1 - CALM_SHARE));

/**
 * The level of one frequency: three times the calm that the flight itself shows, never above what is an oscillation
 * whatever the calm (`absolute`, rad/s), since a flight that oscillates throughout shows no calm.
 */
export function visibleLevel({ frequency, step, amplitude }: ToneTrack, absolute: number): VisibleLevel {
  const seconds = amplitude.length * step;
  if ((seconds * frequency) / FRAME_CYCLES < CALM_FRAMES) return { level: NEAR * absolute, calm: null };
  const calm = RMS_OF_SHARE * quantile(amplitude, CALM_SHARE);
  return { level: Math.min(Math.max(LEAST, CALM_RATIO * calm), NEAR * absolute), calm };
}
