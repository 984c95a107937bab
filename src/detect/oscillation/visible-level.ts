import { quantile } from "../../signal/index.ts";
import { rayleighQuantile, rayleighScale } from "./rayleigh-scale.ts";
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

/** Frames without overlap from which a flight shows what its calm is. */
const CALM_FRAMES = 3;
/** Frames without overlap from which on an oscillation of some length leaves the calmest two fifths of them free. */
const MANY_FRAMES = 9;
/** Share of the frames that count as calm: an oscillation may fill the better half of a flight. */
const CALM_SHARE = 0.4;
/** rad/s (1.1 deg/s): smaller motion is not felt, and sensors make as much */
const LEAST = 0.02;
/** Share of the absolute level at which a tone is looked at; whether it comes to the level is measured afterwards. */
const NEAR = 0.8;
/** Amplitudes of noise in a Hann frame have the rms of 1.5 bins; the band of a mode is 0.83 of its frequency wide. */
const BAND_OVER_FRAME = Math.sqrt(0.83 / (1.5 / FRAME_CYCLES));

/**
 * The level of one frequency: some times (`calmRatio`) the calm that the flight itself shows, never above what is an oscillation
 * whatever the calm (`absolute`, rad/s), since a flight that oscillates throughout shows no calm.
 */
export function visibleLevel(
  { frequency, step, amplitude }: ToneTrack,
  absolute: number,
  calmRatio: number,
): VisibleLevel {
  const frames = (amplitude.length * step * frequency) / FRAME_CYCLES;
  if (frames < CALM_FRAMES) return { level: NEAR * absolute, calm: null, isCalmRough: false };
  const isCalmRough = frames < MANY_FRAMES;
  const scale = isCalmRough ? calmOf(amplitude) : quantile(amplitude, CALM_SHARE) / rayleighQuantile(CALM_SHARE);
  const calm = BAND_OVER_FRAME * scale;
  return { level: Math.min(levelOf(calm, calmRatio), NEAR * absolute), calm, isCalmRough };
}

/** rad/s: the amplitude that stands out from a calm of this in-band rms. */
export const levelOf = (calm: number, calmRatio: number) => Math.max(LEAST, calmRatio * calm);

/** rad/s in-band rms of the calm part of an envelope. */
export const calmOf = (envelope: Float64Array) => rayleighScale(envelope, FEWEST_CALM);

/** Share of a short flight that is calm at the least: the rest may be the oscillation. */
const FEWEST_CALM = 0.15;
