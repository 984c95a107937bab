import { dot, studentTQuantile } from "../../signal/index.ts";
import type { BandMotion } from "./band-motion.ts";

/** What one band motion is of another: b = ratio a + rest. */
export interface PhasorRatio {
  readonly magnitude: number;
  /** rad, positive where b leads a */
  readonly phase: number;
  /** 0 to 1, share of b's power that goes with a */
  readonly coherence: number;
  /** half-width of the 95 % interval of the phase, rad, and of the magnitude over the magnitude */
  readonly reach: number;
}

/**
 * Complex ratio of two motions of one band by least squares over a range, with an interval from the scatter between
 * stretches of two cycles (Student's t).
 */
export function phasorRatio(a: BandMotion, b: BandMotion, from: number, to: number, cycle: number): PhasorRatio {
  const whole = productsOf(a, b, from, to);
  const { re, im } = ratioOf(whole);
  const magnitude = Math.hypot(re, im);
  const block = Math.max(4, 2 * cycle);
  const count = Math.floor((to - from) / block);
  let spread = 0;
  for (let k = 0; k < count; k++) {
    const part = productsOf(a, b, from + k * block, from + (k + 1) * block);
    const own = ratioOf(part);
    // A stretch counts by the power it adds to the whole.
    const weight = part.aa / whole.aa;
    spread += weight * weight * ((own.re - re) ** 2 + (own.im - im) ** 2);
  }
  const deviation = count > 1 ? Math.sqrt(((spread / 2) * count) / (count - 1)) / Math.max(magnitude, 1e-300) : 1;
  const reach = Math.min(Math.PI, studentTQuantile(0.975, Math.max(1, count - 1)) * deviation);
  return {
    magnitude,
    phase: Math.atan2(im, re),
    coherence: whole.aa * whole.bb > 0 ? (whole.re ** 2 + whole.im ** 2) / (whole.aa * whole.bb) : 0,
    reach,
  };
}

interface Products {
  readonly aa: number;
  readonly bb: number;
  readonly re: number;
  readonly im: number;
}

function productsOf(a: BandMotion, b: BandMotion, from: number, to: number): Products {
  const part = (values: Float64Array) => values.subarray(Math.max(0, from), Math.max(0, to));
  const [ar, ai, br, bi] = [part(a.re), part(a.im), part(b.re), part(b.im)];
  return {
    aa: dot(ar, ar) + dot(ai, ai),
    bb: dot(br, br) + dot(bi, bi),
    re: dot(ar, br) + dot(ai, bi),
    im: dot(ar, bi) - dot(ai, br),
  };
}

const ratioOf = ({ aa, re, im }: Products) => (aa > 0 ? { re: re / aa, im: im / aa } : { re: 0, im: 0 });
