import type { Axis } from "../../aircraft/index.ts";
import { channelOf, type Flight } from "../../flight/index.ts";
import { bandMotion } from "./band-motion.ts";
import type { ModeMeasures } from "./mode-measures.ts";
import type { CommandedMoment } from "./motor-moment.ts";
import { onWindow } from "./on-window.ts";
import { type PhasorRatio, phasorRatio } from "./phasor-ratio.ts";
import { unwrapped } from "./unwrapped.ts";

/** Another channel that shows the same oscillation. */
export type Witness = "attitude" | "output" | "motors";

/** Share of power in common from which another channel counts as moving along. */
const LEAST_COHERENCE = 0.6;
/** An attitude swings by rate over angular frequency; within this factor it is the same motion. */
const ATTITUDE_FACTOR = 1.8;

/** Channels that oscillate along with the rate of an axis; empty where none does, or none is logged. */
export function secondWitnesses(
  flight: Flight,
  axis: Axis,
  mode: ModeMeasures,
  isDerived: boolean,
  moment: CommandedMoment | null,
): Witness[] {
  const witnesses: Witness[] = [];
  const attitude = isDerived ? null : relationTo(flight, `attitude.${axis}.measured`, mode);
  if (attitude !== null) {
    const expected = 1 / (2 * Math.PI * mode.frequency.value);
    const size = attitude.magnitude / expected;
    const isSame = size > 1 / ATTITUDE_FACTOR && size < ATTITUDE_FACTOR;
    if (isSame && attitude.coherence >= LEAST_COHERENCE) witnesses.push("attitude");
  }
  if (moment !== null && relate(moment.values, mode).coherence >= LEAST_COHERENCE) witnesses.push(moment.from);
  return witnesses;
}

/** What a channel did in the mode's band, as a ratio to the axis' rate; null where it is not logged throughout. */
export function relationTo(flight: Flight, name: string, mode: ModeMeasures): PhasorRatio | null {
  const channel = channelOf(flight, name);
  if (channel === undefined || channel.rate < 3 * mode.frequency.value) return null;
  const values = onWindow(unwrapped(channel), mode.windowStart, mode.rate, mode.band.re.length);
  return values && relate(values, mode);
}

/** Ratio of some values on the mode's window to the axis' rate. */
export function relate(values: Float64Array, mode: ModeMeasures): PhasorRatio {
  const { band, rate, frequency, from, to } = mode;
  return phasorRatio(band, bandMotion(values, rate, frequency.value), from, to, Math.round(rate / frequency.value));
}
