import { expect, test } from "vitest";
import { inverseRealSpectrum } from "../../../src/signal/fourier/real-spectrum.ts";
import { fourierTransform, inverseFourierTransform } from "../../../src/signal/index.ts";
import reference from "../../reference/spectra.json" with { type: "json" };
import { expectClose, noise } from "../support.ts";

test.each(reference.transforms)("fourierTransform of $length values is exact, a power of two or not", (row) => {
  const signal = { re: noise(5, row.length), im: noise(6, row.length) };
  const { re, im } = fourierTransform(signal);
  const expected = [...row.spectrum.re, ...row.spectrum.im];
  expectClose([...re, ...im], expected, 1e-13);
  const back = inverseFourierTransform({ re, im });
  expectClose([...back.re, ...back.im], [...signal.re, ...signal.im], 1e-13);
});

test("fourierTransform refuses NaN and an empty signal", () => {
  expect(() => fourierTransform(Float64Array.of(0, Number.NaN))).toThrow(/signal: every value must be finite/);
  expect(() => fourierTransform(new Float64Array(0))).toThrow(/length/);
});

test.each([1, 2, 3, 4, 5, 8, 9, 30, 64])("the spectrum of %i real values gives them back", (length) => {
  const values = noise(9, length);
  const { re, im } = fourierTransform(values);
  const bins = Math.floor(length / 2) + 1;
  expectClose(inverseRealSpectrum({ re: re.slice(0, bins), im: im.slice(0, bins) }, length), values, 1e-14);
});
