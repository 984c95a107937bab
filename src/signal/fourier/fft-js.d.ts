declare module "fft.js" {
  /** Radix-4 transform of a power-of-two length; complex arrays are interleaved: re, im, re, im, ... */
  export default class FFT {
    constructor(size: number);
    transform(out: Float64Array, data: Float64Array): void;
    inverseTransform(out: Float64Array, data: Float64Array): void;
  }
}
