import { type ComplexArray, fourierTransform, mean, window } from "../../signal/index.ts";

/** Products of transforms at some frequencies: of set point r, moment m, acceleration a and rate y. */
export interface SetPointSpectra {
  readonly rr: Float64Array;
  readonly mm: Float64Array;
  readonly aa: Float64Array;
  readonly ma: ComplexArray;
  readonly rm: ComplexArray;
  readonly ra: ComplexArray;
  readonly ry: ComplexArray;
}

/**
 * Products of one segment (Hann window), at some bins of its transform.
 * @param rate, input, instrument n values each: the turning, the moment and the set point
 */
export function setPointSpectra(
  rate: Float64Array,
  input: Float64Array,
  instrument: Float64Array,
  sampleRate: number,
  bins: readonly number[],
): SetPointSpectra {
  const length = rate.length;
  const hann = window("hann", length);
  const level = (values: Float64Array) => {
    const middle = mean(values);
    return values.map((value) => value - middle);
  };
  const weighed = (values: Float64Array) => fourierTransform(values.map((value, i) => value * hann[i]!));
  const turning = level(rate);
  const [r, m, y] = [weighed(level(instrument)), weighed(level(input)), weighed(turning)];
  // The window's own slope, so that (w y)' - w' y = w y' holds without differentiating the noise of y.
  const slope = (2 * Math.PI * sampleRate) / length / 2;
  const edge = fourierTransform(turning.map((value, i) => value * slope * Math.sin((2 * Math.PI * i) / length)));
  const a = { re: new Float64Array(bins.length), im: new Float64Array(bins.length) };
  for (const [k, bin] of bins.entries()) {
    const omega = (2 * Math.PI * bin * sampleRate) / length;
    a.re[k] = -omega * y.im[bin]! - edge.re[bin]!;
    a.im[k] = omega * y.re[bin]! - edge.im[bin]!;
  }
  const at = ({ re, im }: ComplexArray): ComplexArray => ({
    re: Float64Array.from(bins, (bin) => re[bin]!),
    im: Float64Array.from(bins, (bin) => im[bin]!),
  });
  const [rk, mk] = [at(r), at(m)];
  const square = ({ re, im }: ComplexArray) => re.map((x, k) => x * x + im[k]! ** 2);
  const times = (u: ComplexArray, v: ComplexArray): ComplexArray => ({
    re: u.re.map((x, k) => x * v.re[k]! + u.im[k]! * v.im[k]!),
    im: u.re.map((x, k) => x * v.im[k]! - u.im[k]! * v.re[k]!),
  });
  return {
    rr: square(rk),
    mm: square(mk),
    aa: square(a),
    ma: times(mk, a),
    rm: times(rk, mk),
    ra: times(rk, a),
    ry: times(rk, at(y)),
  };
}

/** Sum over segments; at least one. */
export function sumOf(all: readonly SetPointSpectra[]): SetPointSpectra {
  const count = all[0]!.rr.length;
  const sum = (of: (one: SetPointSpectra) => Float64Array) => {
    const out = new Float64Array(count);
    for (const one of all) add(of(one), out);
    return out;
  };
  const both = (of: (one: SetPointSpectra) => ComplexArray) => ({ re: sum((p) => of(p).re), im: sum((p) => of(p).im) });
  return {
    rr: sum(({ rr }) => rr),
    mm: sum(({ mm }) => mm),
    aa: sum(({ aa }) => aa),
    ma: both(({ ma }) => ma),
    rm: both(({ rm }) => rm),
    ra: both(({ ra }) => ra),
    ry: both(({ ry }) => ry),
  };
}

function add(values: Float64Array, onto: Float64Array): void {
  for (let k = 0; k < onto.length; k++) onto[k] = onto[k]! + values[k]!;
}

/** The same at some of its frequencies only. */
export function picked(all: SetPointSpectra, indices: readonly number[]): SetPointSpectra {
  const of = (values: Float64Array) => Float64Array.from(indices, (k) => values[k]!);
  const both = ({ re, im }: ComplexArray): ComplexArray => ({ re: of(re), im: of(im) });
  return {
    rr: of(all.rr),
    mm: of(all.mm),
    aa: of(all.aa),
    ma: both(all.ma),
    rm: both(all.rm),
    ra: both(all.ra),
    ry: both(all.ry),
  };
}
