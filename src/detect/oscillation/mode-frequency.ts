import { studentTQuantile } from "../../signal/index.ts";
import type { Estimate } from "../evidence.ts";
import type { BandMotion } from "./band-motion.ts";

/** Share of the largest envelope above which phase is worth counting. */
const STRONG = 0.5;

/**
 * Mean frequency of a mode from the phase it gains while it is strong, and its interval from the scatter between
 * single cycles (Student's t, neighbouring cycles allowed to depend on each other by counting half of them).
 */
export function modeFrequency(
  { re, im, envelope }: BandMotion,
  rate: number,
  from: number,
  to: number,
  near: number,
): Estimate {
  const floor = STRONG * envelope.subarray(from, to).reduce((most, value) => Math.max(most, value), 0);
  const cycle = Math.max(2, Math.round(rate / near));
  const replicates: number[] = [];
  let turned = 0;
  let steps = 0;
  for (let i = from; i + cycle < to; i += cycle) {
    let phase = 0;
    let counted = 0;
    for (let k = i + 1; k <= i + cycle; k++) {
      if (envelope[k]! < floor) continue;
      phase += Math.atan2(im[k]! * re[k - 1]! - re[k]! * im[k - 1]!, re[k]! * re[k - 1]! + im[k]! * im[k - 1]!);
      counted++;
    }
    turned += phase;
    steps += counted;
    if (counted > cycle / 2) replicates.push((phase * rate) / (2 * Math.PI * counted));
  }
  if (steps === 0) return { value: near, unit: "Hz" };
  const value = Math.min(near * 1.5, Math.max(near / 1.5, (turned * rate) / (2 * Math.PI * steps)));
  const count = replicates.length;
  if (count < 4) return { value, unit: "Hz" };
  const spread = Math.sqrt(replicates.reduce((sum, f) => sum + (f - value) ** 2, 0) / (count - 1));
  const reach = (studentTQuantile(0.975, Math.max(1, count / 2 - 1)) * spread) / Math.sqrt(count / 2);
  return { value, unit: "Hz", low: value - reach, high: value + reach };
}
