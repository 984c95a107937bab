import { requireBelowNyquist, requirePositive, requireWhole } from "../checks.ts";
import type { Complex } from "../complex-array.ts";
import { ArgumentError } from "../errors.ts";
import type { SecondOrderSections } from "./second-order-sections.ts";

export interface ButterworthOptions {
  /** What passes: below the cut-off (default), above it, or between two of them. */
  readonly pass?: "low" | "high" | "band";
}

/**
 * A Butterworth filter as second-order sections, by the bilinear transform with the cut-off prewarped: half the power
 * passes at the cut-off exactly. A band-pass filter has twice the order asked for, as is usual.
 * @param order 1 to 20
 * @param cutoff Hz; for a band the pair [low, high]
 * @param sampleRate samples per second, Hz
 * @throws ArgumentError if a cut-off is not between 0 and half the sample rate, or the order is out of range
 * @see Butterworth 1930, Wireless Engineer 7:536-541; Oppenheim & Schafer, Discrete-Time Signal Processing, section 7.1
 */
export function butterworth(
  order: number,
  cutoff: number | readonly [number, number],
  sampleRate: number,
  options: ButterworthOptions = {},
): SecondOrderSections {
  requireWhole(order, 1, "order", 20);
  requirePositive(sampleRate, "sampleRate");
  const { pass = typeof cutoff === "number" ? "low" : "band" } = options;
  const edges = typeof cutoff === "number" ? [cutoff] : cutoff;
  if (edges.length !== (pass === "band" ? 2 : 1)) {
    throw new ArgumentError(
      "cutoff",
      `${edges.length} frequencies`,
      `${pass === "band" ? "two" : "one"} for pass "${pass}"`,
    );
  }
  for (const edge of edges) requireBelowNyquist(edge, sampleRate, "cutoff");
  // Frequencies of the analogue prototype whose bilinear images are the cut-offs; the unit is 2 x sampleRate rad/s.
  const warped = edges.map((edge) => Math.tan((Math.PI * edge) / sampleRate));
  if (pass === "band" && !(warped[0]! < warped[1]!))
    throw new ArgumentError("cutoff", edges.join(" to "), "a rising pair");
  const poles: Complex[] = [];
  for (let k = 0; k < Math.ceil(order / 2); k++) {
    const angle = (Math.PI * (2 * k + 1 + order)) / (2 * order);
    const isReal = 2 * k + 1 === order;
    poles.push({ re: isReal ? -1 : Math.cos(angle), im: isReal ? 0 : Math.sin(angle) });
  }
  const sections =
    pass === "band"
      ? poles.flatMap((pole) => bandSections(pole, warped[0]!, warped[1]!))
      : poles.map((pole) => edgeSection(pole, warped[0]!, pass === "high"));
  return { coefficients: Float64Array.from(sections.flat()), sections: sections.length, sampleRate };
}

/** A low-pass or high-pass section of one prototype pole (with its conjugate, if it is not real). */
function edgeSection(pole: Complex, edge: number, isHigh: boolean): number[] {
  const sign = isHigh ? -1 : 1;
  // The prototype is normalised: its high-pass twin has the poles 1/p, which is the conjugate of p.
  if (pole.im === 0) {
    const gain = (isHigh ? 1 : edge) / (1 + edge);
    return [gain, sign * gain, 0, (edge - 1) / (edge + 1), 0];
  }
  const damping = -2 * pole.re * edge;
  const scale = 1 + damping + edge * edge;
  const gain = (isHigh ? 1 : edge * edge) / scale;
  return [gain, 2 * sign * gain, gain, (2 * (edge * edge - 1)) / scale, (1 - damping + edge * edge) / scale];
}

/**
 * Band-pass sections of one prototype pole p: the roots of s² - p B s + w0² = 0, B the width and w0 the middle of the
 * band. Each section gets one zero at frequency 0 and one at the Nyquist frequency, and a gain of 1 in mid-band.
 */
function bandSections(pole: Complex, low: number, high: number): number[][] {
  const width = high - low;
  const middle = Math.sqrt(low * high);
  const half: Complex = { re: (pole.re * width) / 2, im: (pole.im * width) / 2 };
  const root = squareRoot({ re: half.re ** 2 - half.im ** 2 - middle ** 2, im: 2 * half.re * half.im });
  const first: Complex = { re: half.re + root.re, im: half.im + root.im };
  const second: Complex = { re: half.re - root.re, im: half.im - root.im };
  if (pole.im !== 0) {
    return [first, second].map((s) => bandSection(-2 * s.re, s.re ** 2 + s.im ** 2, middle));
  }
  // A real pole's two roots are each other's conjugates, or both real: one section either way.
  return [bandSection(-2 * half.re, middle ** 2, middle)];
}

/** Bilinear image of g s / (s² + damping s + stiffness), s = (z - 1) / (z + 1), with |g| such that mid-band passes whole. */
function bandSection(damping: number, stiffness: number, middle: number): number[] {
  const gain = Math.hypot(stiffness - middle ** 2, damping * middle) / middle;
  const scale = 1 + damping + stiffness;
  return [gain / scale, 0, -gain / scale, (2 * (stiffness - 1)) / scale, (1 - damping + stiffness) / scale];
}

function squareRoot({ re, im }: Complex): Complex {
  const size = Math.hypot(re, im);
  const x = Math.sqrt((size + re) / 2);
  const y = Math.sqrt((size - re) / 2);
  return { re: x, im: im < 0 ? -y : y };
}
