import { describe, expect, test } from "vitest";
import {
  blockLength,
  changePoint,
  crossCorrelationDelay,
  cusum,
  mean,
  movingBlockBootstrap,
  randomGenerator,
  ratioInterval,
  standardDeviation,
  stationaryBootstrap,
} from "../../../src/signal/index.ts";
import { coverageOf } from "../../studies/coverage.ts";
import { correlatedMean, delayedNoise, levelStep } from "../../studies/scenarios.ts";
import { expectNear, noise } from "../support.ts";

function firstOrder(seed: number, phi: number, count: number): Float64Array {
  let level = 0;
  return randomGenerator(seed)
    .gaussians(count)
    .map((e) => {
      level = phi * level + e;
      return level;
    });
}

describe("blockLength", () => {
  test("is about 1 for white noise and near the theory of a first-order process", () => {
    expect(blockLength(noise(1, 1000)).movingBlock).toBeLessThan(4);
    const lengths = Array.from({ length: 20 }, (_, i) => blockLength(firstOrder(i + 1, 0.7, 2000)).movingBlock);
    // For AR(1) the best block is (1.5 n (2 phi / (1 - phi²))²)^(1/3).
    const best = (1.5 * 2000 * ((2 * 0.7) / (1 - 0.49)) ** 2) ** (1 / 3);
    expectNear(mean(lengths), best, 0.25);
  });

  test("keeps the ratio of the two constants, and gives a constant series blocks of 1", () => {
    const { movingBlock, stationary } = blockLength(firstOrder(2, 0.7, 2000));
    expectNear(movingBlock / stationary, 1.5 ** (1 / 3), 1e-12);
    expect(blockLength(new Float64Array(50).fill(1))).toEqual({ movingBlock: 1, stationary: 1 });
  });
});

describe("bootstraps", () => {
  const values = firstOrder(3, 0.5, 300);

  test("repeat themselves for the same seed and leave their input as it was", () => {
    const copy = values.slice();
    for (const bootstrap of [movingBlockBootstrap, stationaryBootstrap]) {
      const first = bootstrap(values, mean, { resamples: 50 });
      expect(bootstrap(values, mean, { resamples: 50 })).toEqual(first);
      expect(bootstrap(values, mean, { resamples: 50, seed: 2 }).low).not.toBe(first.low);
    }
    expect(values).toEqual(copy);
  });

  test("give the standard error of a mean that theory gives", () => {
    const expected = 2 / Math.sqrt(300);
    expectNear(movingBlockBootstrap(values, mean, { blockLength: 20 }).standardError, expected, 0.25);
    expectNear(stationaryBootstrap(values, mean, { blockLength: 20 }).standardError, expected, 0.25);
  });

  test("refuse a short series and a block longer than the series", () => {
    expect(() => movingBlockBootstrap(noise(1, 10), mean)).toThrow(/values: needs at least 16/);
    expect(() => movingBlockBootstrap(values, mean, { blockLength: 301 })).toThrow(/blockLength/);
    expect(() => stationaryBootstrap(values, mean, { resamples: 1 })).toThrow(/resamples/);
  });
});

describe("changePoint", () => {
  test("finds a clean step exactly, and says that a constant has none", () => {
    const step = Float64Array.from({ length: 40 }, (_, i) => (i < 13 ? 2 : 5));
    expect(changePoint(step)).toMatchObject({ index: 13, before: 2, after: 5, pValue: 0 });
    expect(changePoint(new Float64Array(40).fill(2)).pValue).toBe(1);
  });

  test("keeps its false alarms near the level chosen, in white noise", () => {
    let alarms = 0;
    for (let seed = 1; seed <= 400; seed++)
      if (changePoint(randomGenerator(seed).gaussians(200)).pValue < 0.05) alarms++;
    expect(alarms / 400).toBeLessThan(0.085);
  });
});

test("crossCorrelationDelay finds a whole shift exactly, of either sign", () => {
  const long = noise(5, 300);
  const [early, late] = [long.slice(7, 257), long.slice(0, 250)];
  const found = crossCorrelationDelay(early, late, 50);
  expectNear(found.delay, 7 / 50, 1e-6);
  expectNear(found.correlation, 1, 1e-6);
  expectNear(crossCorrelationDelay(late, early, 50).delay, -7 / 50, 1e-6);
  expect(() => crossCorrelationDelay(early, new Float64Array(250), 50)).toThrow(/second: needs a signal that varies/);
  expect(() => crossCorrelationDelay(early, late.slice(1), 50)).toThrow(/second/);
});

describe("intervals contain the truth (fixed parts of the studies in test/studies)", () => {
  test.each([
    ["delay at 20 dB", delayedNoise({ decibels: 20 }), 0.9, 1],
    ["place of a step", levelStep({ step: 1, phi: 0 }), 0.9, 1],
  ])("%s", (_, trial, least, most) => {
    for (const { covered } of Object.values(coverageOf(trial, 200, 77))) {
      expect(covered).toBeGreaterThan(least);
      expect(covered).toBeLessThanOrEqual(most);
    }
  });

  test("legs do at any correlation; one leg resampled does not when the noise is slow", () => {
    const covered = coverageOf(correlatedMean({ phi: 0.98, count: 400, legs: 4 }), 150, 77);
    expect(covered["4 legs, t"]!.covered).toBeGreaterThan(0.89);
    expect(covered["stationary bootstrap, automatic length"]!.covered).toBeLessThan(0.8);
  });
});

test("cusum and ratioInterval refuse what they cannot answer", () => {
  expect(() => cusum(Float64Array.of(1), { deviation: 0 })).toThrow(/deviation/);
  expect(() => cusum(Float64Array.of(1), { slack: -1 })).toThrow(/slack/);
  expect(cusum(Float64Array.of(1, 1)).alarm).toBeUndefined();
  const vague = ratioInterval({ value: 1, standardError: 0.1 }, { value: 1, standardError: 1 });
  expect(vague.high).toBe(Number.POSITIVE_INFINITY);
  expect(vague.low).toBeGreaterThanOrEqual(0);
});

test("randomGenerator repeats itself, fills the range evenly and makes normal numbers", () => {
  const [first, second] = [randomGenerator(12), randomGenerator(12)];
  expect(Array.from({ length: 5 }, first.next)).toEqual(Array.from({ length: 5 }, second.next));
  const normal = randomGenerator(1).gaussians(20_000);
  expect(Math.abs(mean(normal))).toBeLessThan(0.03);
  expect(Math.abs(standardDeviation(normal) - 1)).toBeLessThan(0.02);
  const random = randomGenerator(2);
  const counts = new Float64Array(6);
  for (let i = 0; i < 6000; i++) counts[random.below(6)]!++;
  for (const count of counts) expect(Math.abs(count - 1000)).toBeLessThan(120);
});
