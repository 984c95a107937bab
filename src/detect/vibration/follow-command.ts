import type { Flight } from "../../flight/index.ts";
import type { Channel, Series } from "../../log/channel.ts";
import { unbrokenRanges } from "../air-time.ts";
import { commandTones } from "./command-tone.ts";
import { motorDrives } from "./motor-drives.ts";
import { spectralLines } from "./spectral-lines.ts";

/** A line in a sensor's spectrum that follows the command of one motor. */
export interface FollowingLine {
  /** from 1 */
  readonly motor: number;
  readonly channel: Channel;
  /** Hz */
  readonly frequency: number;
  /** peak, in the channel's unit: of what follows each motor, itself included */
  readonly amplitudes: readonly number[];
  /** amplitude over what noise gives */
  readonly clearness: number;
}

/** A line's density over that beside it; and how many lines are followed up at most, the clearest ones */
const CLEAR_LINE = 8;
const MOST_LINES = 6;
/** Amplitude over chance: a weaker line keeps step with every drive a little. */
const CLEAR_TONE = 10;
/** Part of a line's power that may go another way: what follows one motor is nearly all of it. */
const MOST_LEFT = 0.05;
/** By how much of the line's power that motor must follow it better than any other and than a steady tone would. */
const BETTER = 0.03;

/**
 * Looks for lines whose frequency rises and falls with the command of one motor and of no other. Rotors that all shake
 * alike give no such line, nor does a frame that rings at its own frequency, nor a line that was folded down.
 * @param highest share of the sample rate up to which lines are believed
 * @returns at most one line a motor, its clearest
 */
export function linesThatFollow(flight: Flight, sensors: readonly Channel[], highest: number): FollowingLine[] {
  const { airborne } = flight;
  const lines = sensors
    .flatMap((channel) =>
      spectralLines(channel, airborne, { highest, clear: CLEAR_LINE }).map((line) => ({ channel, ...line })),
    )
    .sort((a, b) => b.clearness - a.clearness)
    .slice(0, MOST_LINES);
  if (lines.length === 0) return [];
  const drives = motorDrives(flight);
  const best = new Map<number, FollowingLine>();
  for (const { channel, frequency } of lines) {
    const found = followed(channel, frequency, drives, airborne);
    if (found !== null && found.clearness > (best.get(found.motor)?.clearness ?? 0)) best.set(found.motor, found);
  }
  return [...best.values()];
}

function followed(
  channel: Channel,
  frequency: number,
  drives: readonly Series[],
  airborne: Flight["airborne"],
): FollowingLine | null {
  const tones = commandTones(channel.series, drives, frequency, unbrokenRanges(channel, airborne));
  if (tones === null) return null;
  const { amplitudes, steady, whole, background } = tones;
  const left = (amplitude: number) => 1 - (amplitude / whole) ** 2;
  const most = Math.max(...amplitudes);
  const motor = amplitudes.indexOf(most) + 1;
  const others = [steady, ...amplitudes.filter((_, i) => i !== motor - 1)];
  const isClear = most > CLEAR_TONE * background && left(most) < MOST_LEFT;
  if (!isClear || others.some((other) => left(other) - left(most) < BETTER)) return null;
  return { motor, channel, frequency, amplitudes, clearness: most / background };
}
