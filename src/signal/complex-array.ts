/** Complex numbers as two real arrays of the same length. */
export interface ComplexArray {
  readonly re: Float64Array;
  readonly im: Float64Array;
}

/** One complex number. */
export interface Complex {
  readonly re: number;
  readonly im: number;
}

/** |z| of every element. */
export function magnitude({ re, im }: ComplexArray): Float64Array {
  return re.map((x, i) => Math.hypot(x, im[i]!));
}

/** The argument of every element, in rad from -pi to pi. */
export function phase({ re, im }: ComplexArray): Float64Array {
  return re.map((x, i) => Math.atan2(im[i]!, x));
}
