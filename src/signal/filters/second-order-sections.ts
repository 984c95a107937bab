import { requirePositive } from "../checks.ts";
import type { ComplexArray } from "../complex-array.ts";

/**
 * A recursive filter as a chain of second-order sections. Five numbers a section, one after another:
 * b0, b1, b2, a1, a2, for y[n] = b0 x[n] + b1 x[n-1] + b2 x[n-2] - a1 y[n-1] - a2 y[n-2].
 */
export interface SecondOrderSections {
  readonly coefficients: Float64Array;
  readonly sections: number;
  /** For which the filter was designed, Hz. */
  readonly sampleRate: number;
}

/**
 * The complex gain of a filter.
 * @param frequencies Hz
 * @see Oppenheim & Schafer, Discrete-Time Signal Processing, section 5.3
 */
export function sectionsResponse(filter: SecondOrderSections, frequencies: Float64Array): ComplexArray {
  const re = new Float64Array(frequencies.length).fill(1);
  const im = new Float64Array(frequencies.length);
  requirePositive(filter.sampleRate, "filter.sampleRate");
  for (let i = 0; i < frequencies.length; i++) {
    const angle = (2 * Math.PI * frequencies[i]!) / filter.sampleRate;
    const [c1, s1, c2, s2] = [Math.cos(angle), -Math.sin(angle), Math.cos(2 * angle), -Math.sin(2 * angle)];
    for (let s = 0; s < filter.sections; s++) {
      const [b0, b1, b2, a1, a2] = section(filter, s);
      const numerator = { re: b0 + b1 * c1 + b2 * c2, im: b1 * s1 + b2 * s2 };
      const denominator = { re: 1 + a1 * c1 + a2 * c2, im: a1 * s1 + a2 * s2 };
      const size = denominator.re ** 2 + denominator.im ** 2;
      const gain = {
        re: (numerator.re * denominator.re + numerator.im * denominator.im) / size,
        im: (numerator.im * denominator.re - numerator.re * denominator.im) / size,
      };
      const product = re[i]! * gain.re - im[i]! * gain.im;
      im[i] = re[i]! * gain.im + im[i]! * gain.re;
      re[i] = product;
    }
  }
  return { re, im };
}

/** The five coefficients of one section. */
export function section(filter: SecondOrderSections, index: number): [number, number, number, number, number] {
  const c = filter.coefficients.subarray(5 * index, 5 * index + 5);
  return [c[0]!, c[1]!, c[2]!, c[3]!, c[4]!];
}
