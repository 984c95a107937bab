import type { Axis } from "../../aircraft/index.ts";
import { channelOf, type Flight } from "../../flight/index.ts";
import { BAND, bandMotion } from "./band-motion.ts";
import type { ModeMeasures } from "./mode-measures.ts";
import { onWindow } from "./on-window.ts";

/**
 * rad, how far the attitude swung in the mode's band when its rate swung most. A swing of the mode's frequency turns by
 * its rate over the angular frequency; the band lets through what is up to `BAND` times slower or faster, and no more
 * than that can an angle differ from it. Where the attitude tells otherwise (it is filtered, or something slow and large
 * went by), where it is not logged, and for a heading, the angle is the one that belongs to the rate.
 */
export function angleAtPeak(flight: Flight, axis: Axis, mode: ModeMeasures): number {
  const { windowStart, rate, band, frequency, amplitude } = mode;
  const own = amplitude / (2 * Math.PI * frequency.value);
  const channel = axis === "yaw" ? undefined : channelOf(flight, `attitude.${axis}.measured`);
  const values = channel && onWindow(channel, windowStart, rate, band.re.length);
  if (!values) return own;
  const angle = bandMotion(values, rate, frequency.value).envelope[band.envelope.indexOf(amplitude)]!;
  return angle >= own / BAND && angle <= own * BAND ? angle : own;
}
