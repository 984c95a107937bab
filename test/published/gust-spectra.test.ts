import { describe, expect, test } from "vitest";
import { powerSpectralDensity } from "../../src/signal/index.ts";
import { drydenGusts, drydenScales } from "../../src/simulate/physics/dryden.ts";

const FOOT = 0.3048;

// MIL-F-8785C 3.7.3.4, low altitude.
describe("Dryden scales", () => {
  test.each([
    [100, 15, 4.34404, 2.531715, 505.1693],
    [20, 15, 4.88403, 2.531715, 143.5888],
    [50, 15, 4.654925, 2.531715, 310.7876],
    [500, 30, 6.259595, 5.06343, 944.6572],
  ])("at %d ft in %d kt: sigma u %d ft/s, sigma w %d ft/s, L u %d ft", (feet, knots, sigmaU, sigmaW, lengthU) => {
    const scales = drydenScales(feet * FOOT, knots);
    expect(scales.along.sigma / FOOT / sigmaU).toBeCloseTo(1, 5);
    expect(scales.vertical.sigma / FOOT / sigmaW).toBeCloseTo(1, 5);
    expect(scales.along.length / FOOT / lengthU).toBeCloseTo(1, 5);
    expect(scales.vertical.length / FOOT).toBeCloseTo(feet, 9);
  });

  test("at 1000 ft all lengths are 1000 ft and all intensities equal", () => {
    const { along, vertical } = drydenScales(1000 * FOOT, 15);
    expect(along.length / FOOT).toBeCloseTo(1000, 6);
    expect(along.sigma / vertical.sigma).toBeCloseTo(1, 6);
  });
});

describe("Dryden gusts", () => {
  const [speed, dt, count] = [12, 0.05, 1_000_000];
  const scales = drydenScales(100 * FOOT, 15);
  const gusts = drydenGusts(dt, 5);
  gusts.tune(speed, 100 * FOOT, 15);
  const lanes = [0, 1, 2].map(() => new Float64Array(count));
  for (let n = 0; n < count; n++) {
    gusts.step();
    for (let k = 0; k < 3; k++) lanes[k]![n] = gusts.velocity[k]!;
  }

  /** One-sided densities over omega, whose integral from 0 is sigma^2 (MIL-F-8785C). */
  const published = [
    (omega: number) => {
      const { sigma, length } = scales.along;
      return (sigma ** 2 * ((2 * length) / (Math.PI * speed))) / (1 + ((length * omega) / speed) ** 2);
    },
    (omega: number) => transverse(scales.along, omega),
    (omega: number) => transverse(scales.vertical, omega),
  ];
  function transverse({ sigma, length }: { sigma: number; length: number }, omega: number) {
    const x = (length * omega) / speed;
    return (sigma ** 2 * (length / (Math.PI * speed)) * (1 + 3 * x ** 2)) / (1 + x ** 2) ** 2;
  }

  test.each([
    ["along", 0],
    ["across", 1],
    ["down", 2],
  ] as const)("%s: power in each octave band from 0.01 to 2.5 Hz agrees with the formula within 8 %", (_, k) => {
    const { frequency, density } = powerSpectralDensity(lanes[k]!, 1 / dt, { segmentLength: 16384 });
    const step = frequency[1]!;
    for (let low = 0.01; low < 2; low *= 2) {
      let measured = 0;
      let formula = 0;
      for (let i = 0; i < frequency.length; i++) {
        if (frequency[i]! < low || frequency[i]! >= 2 * low) continue;
        measured += density[i]! * step;
        formula += published[k]!(2 * Math.PI * frequency[i]!) * 2 * Math.PI * step;
      }
      expect(measured / formula, `band from ${low} Hz`).toBeGreaterThan(0.92);
      expect(measured / formula, `band from ${low} Hz`).toBeLessThan(1.08);
    }
  });

  test("the standard deviations are those of the model within 6 %", () => {
    const expected = [scales.along.sigma, scales.along.sigma, scales.vertical.sigma];
    for (const [k, lane] of lanes.entries()) {
      const rms = Math.sqrt(lane.reduce((sum, value) => sum + value * value, 0) / count);
      expect(rms / expected[k]!).toBeGreaterThan(0.94);
      expect(rms / expected[k]!).toBeLessThan(1.06);
    }
  });
});
