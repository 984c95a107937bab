import { expect, test } from "vitest";
import { periodicity } from "../../../src/detect/oscillation/periodicity.ts";
import { mean, randomGenerator } from "../../../src/signal/index.ts";
import { numbers } from "../../support/index.ts";

const RATE = 50;

test("a tone repeats itself wholly, growing or not", () => {
  for (const sigma of [0, 0.5]) {
    const values = numbers(500, (i) => Math.exp((sigma * i) / RATE) * Math.sin((2 * Math.PI * 2 * i) / RATE));
    expect(periodicity(values, RATE, 2)).toBeGreaterThan(0.95);
  }
});

test("a damped mode in noise repeats itself by exp(-4 pi zeta) or so: 0.02 at zeta 0.3, 0.28 at 0.1", () => {
  const random = randomGenerator(11);
  for (const [zeta, low, high] of [
    [0.3, -0.05, 0.2],
    [0.1, 0.15, 0.45],
  ] as const) {
    const omega = 2 * Math.PI * 2;
    const radius = Math.exp((-zeta * omega) / RATE);
    const turn = (omega * Math.sqrt(1 - zeta * zeta)) / RATE;
    const means = numbers(20, () => {
      const values = new Float64Array(2200);
      for (let n = 2; n < values.length; n++)
        values[n] = 2 * radius * Math.cos(turn) * values[n - 1]! - radius ** 2 * values[n - 2]! + random.gaussian();
      return periodicity(values.slice(200), RATE, 2);
    });
    expect(mean(means)).toBeGreaterThan(low);
    expect(mean(means)).toBeLessThan(high);
  }
});
