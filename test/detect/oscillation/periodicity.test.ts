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

test("a wave whose period grows by a third as it swings out repeats itself if it may drift", () => {
  // Eight periods, 0.5 s to 0.67 s: the phase of a linear chirp is the integral of its frequency.
  const seconds = 8 / 1.75;
  const values = numbers(Math.round(seconds * RATE), (i) => {
    const t = i / RATE;
    return Math.exp(0.4 * t) * Math.sin(2 * Math.PI * (2 * t - (0.25 * t * t) / seconds));
  });
  expect(periodicity(values, RATE, 1.75)).toBeLessThan(0.8);
  expect(periodicity(values, RATE, 1.75, { mayDrift: true })).toBeGreaterThan(0.9);
});
