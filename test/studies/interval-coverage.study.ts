// How often 95 % intervals contain the truth, over 1000 seeded trials each. Prints a Markdown table.
import { test } from "vitest";
import { coverageOf, type Trial, tableRows } from "./coverage.ts";
import {
  correlatedEnvelope,
  correlatedMean,
  delayedNoise,
  growingOscillation,
  levelStep,
  noiseDriven,
  ringDown,
  steadyTone,
} from "./scenarios.ts";

const trials = Number(process.env.TRIALS ?? 1000);

const studies: readonly (readonly [string, Trial])[] = [
  ...([10, 20, 30] as const).flatMap((decibels) =>
    [0.02, 0.05, -0.02].map((dampingRatio) => {
      const title = `ring-down 2 s, 4 Hz, damping ${dampingRatio}, ${decibels} dB`;
      return [title, ringDown({ dampingRatio, decibels, count: 200 })] as const;
    }),
  ),
  [
    "ring-down 2 s, damping 0.05, 20 dB, order chosen",
    ringDown({ dampingRatio: 0.05, decibels: 20, count: 200, chooseOrder: true }),
  ],
  ...([0.05, 0.1, 0.3] as const).flatMap((dampingRatio) =>
    [1000, 6000].map((count) => {
      const title = `noise-driven, 4 Hz, damping ${dampingRatio}, ${count / 50} s, Burg`;
      return [title, noiseDriven({ dampingRatio, count, method: "burg" })] as const;
    }),
  ),
  [
    "noise-driven, damping 0.1, 120 s, Yule-Walker",
    noiseDriven({ dampingRatio: 0.1, count: 6000, method: "yule-walker" }),
  ],
  ...([0.02, 0.1, 0.3] as const).map(
    (tau) =>
      [`log-envelope, residuals correlated over ${tau} s, 10 s`, correlatedEnvelope({ tau, duration: 10 })] as const,
  ),
  ...([10, 20, 30] as const).map(
    (decibels) =>
      [
        `envelope of a growing 6 Hz, 5 s, ${decibels} dB in band`,
        growingOscillation({ decibels, duration: 5 }),
      ] as const,
  ),
  ["tone, 5 s, -3 dB, white", steadyTone({ count: 500, phi: 0, amplitude: 1 })],
  ["tone, 5 s, -3 dB, coloured (phi 0.8)", steadyTone({ count: 500, phi: 0.8, amplitude: 1 })],
  ...([0, 0.8, 0.98] as const).map(
    (phi) => [`mean, AR(1) phi ${phi}, 400 samples a leg`, correlatedMean({ phi, count: 400, legs: 4 })] as const,
  ),
  ["mean, AR(1) phi 0.98, 400 samples a leg", correlatedMean({ phi: 0.98, count: 400, legs: 8 })],
  ["step of 1 in white noise, 200 samples", levelStep({ step: 1, phi: 0 })],
  ["step of 2 in white noise, 200 samples", levelStep({ step: 2, phi: 0 })],
  ["step of 2 in AR(1) phi 0.5, 200 samples", levelStep({ step: 2, phi: 0.5 })],
  ["delay, 3.8 s of 10 Hz noise at 100 Hz, 0 dB", delayedNoise({ decibels: 0 })],
  ["delay, 3.8 s of 10 Hz noise at 100 Hz, 20 dB", delayedNoise({ decibels: 20 })],
];

test.each(studies)("%s", (title, trial) => {
  console.log(tableRows(title, coverageOf(trial, trials)));
});
