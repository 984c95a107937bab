import fc from "fast-check";
import { expect, test } from "vitest";
import { flutterMargin } from "../../src/compare/index.ts";

const mode = fc.record({
  growth: fc.double({ min: -3, max: -0.01, noNaN: true }),
  frequency: fc.double({ min: 0.3, max: 8, noNaN: true }),
});

test("flutterMargin equals the form in decay rates and frequencies that Zimmerman and Weissenburger print (1964)", () => {
  fc.assert(
    fc.property(mode, mode, (one, other) => {
      const [b1, b2] = [one.growth, other.growth];
      const [w1, w2] = [2 * Math.PI * one.frequency, 2 * Math.PI * other.frequency];
      const half = (w2 ** 2 - w1 ** 2) / 2;
      const mid = (b2 + b1) / 2;
      const expected =
        (half + (b2 ** 2 - b1 ** 2) / 2) ** 2 +
        4 * b1 * b2 * ((w2 ** 2 + w1 ** 2) / 2 + 2 * mid ** 2) -
        (((b2 - b1) / (b2 + b1)) * half + 2 * mid ** 2) ** 2;
      expect(flutterMargin(one, other)).toBeCloseTo(expected, 5 - Math.ceil(Math.log10(Math.abs(expected) + 1)));
    }),
  );
});

test("the margin is above zero while both modes decay and zero where one no longer does", () => {
  fc.assert(
    fc.property(mode, mode, (one, other) => {
      expect(flutterMargin(one, other)).toBeGreaterThan(0);
      const size = (2 * Math.PI * Math.max(one.frequency, other.frequency)) ** 4;
      expect(Math.abs(flutterMargin({ ...one, growth: 0 }, other)) / size).toBeLessThan(1e-9);
    }),
  );
});
