import { expect, test } from "vitest";
import { rounded, significant } from "../../src/charts/significant.ts";

// What text makes of the same value is the check: slower, and right by definition (ECMA-262, Number.prototype.toPrecision).
test.each([
  0.000123456, 0.5, 1, 1.000049, 12.3456789, 1234.56789, 98765.4, 123456.7, 9999950, 6.02214076e23, 1.602176634e-19,
  1.2345678e308, 2.2250738585072014e-308, 5e-324, 1e-30,
])("%d has the same five digits as by way of text, either sign", (value) => {
  expect(significant(value)).toBeCloseTo(Number(value.toPrecision(5)), 15);
  expect(significant(value) / Number(value.toPrecision(5))).toBeCloseTo(1, 12);
  expect(significant(-value)).toBe(-significant(value));
});

test("nothing, and what is no number, stay what they are", () => {
  expect(significant(0)).toBe(0);
  expect(significant(Number.NaN)).toBeNaN();
  expect(significant(Number.POSITIVE_INFINITY)).toBe(Number.POSITIVE_INFINITY);
});

test.each([
  [1.23456, 4, 1.2346],
  [-1.23456, 2, -1.23],
  [599.99996, 4, 600],
  [1234, -2, 1200],
])("%d to %d decimals is %d", (value, decimals, expected) => {
  expect(rounded(value, decimals)).toBe(expected);
});
