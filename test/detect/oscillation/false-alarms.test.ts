import { expect, test } from "vitest";
import { oscillation } from "../../../src/detect/index.ts";
import { calmRatiosFor, leastRegularity, regularityOf } from "../../../src/detect/oscillation/false-alarms.ts";
import { FALSE_ALARMS } from "../../../src/flight/flight.ts";
import { buildFlight } from "../../../src/flight/index.ts";
import { randomGenerator } from "../../../src/signal/index.ts";
import { surveyLog } from "../../support/survey-log.ts";

test("fewer false alarms ask for more regularity, as much again for every factor", () => {
  const [few, fewer, fewest] = [0.3, 0.03, 0.003].map(leastRegularity) as [number, number, number];
  expect(fewer).toBeGreaterThan(few);
  expect(fewest - fewer).toBeCloseTo(fewer - few, 12);
});

test("up to the default three times the calm are asked for; who accepts more sees that and smaller motion", () => {
  expect(calmRatiosFor(0.01)).toEqual([3]);
  expect(calmRatiosFor(FALSE_ALARMS)).toEqual([3]);
  const least = [0.6, 2, 3, 5, 20, 1e6].map((falseAlarms) => {
    const ratios = calmRatiosFor(falseAlarms);
    expect(ratios).toContain(3);
    return Math.min(...ratios);
  });
  expect(least).toEqual([...least].sort((a, b) => b - a));
  expect(least.at(-1)).toBeGreaterThan(1);
});

test("the same periodicity is worth more over more cycles", () => {
  const over = (cyclesLookedAt: number) => regularityOf({ periodicity: 0.8, cyclesLookedAt });
  expect(over(20)).toBeGreaterThan(over(6));
});

test("a rate of zero or none is refused", () => {
  expect(() => leastRegularity(0)).toThrow(/falseAlarms/);
  expect(() => leastRegularity(Number.NaN)).toThrow(/falseAlarms/);
  expect(() => calmRatiosFor(0)).toThrow(/falseAlarms/);
});

/** A lightly damped mode (zeta 0.06) shaken by bursts of noise: neither wave nor calm. */
function ringing() {
  const [rate, omega, zeta] = [50, 2 * Math.PI * 1.5, 0.06];
  const random = randomGenerator(21);
  const radius = Math.exp((-zeta * omega) / rate);
  const turn = (omega * Math.sqrt(1 - zeta * zeta)) / rate;
  const values = new Float64Array(600 * rate + 1);
  for (let n = 2; n < values.length; n++) {
    const gust = n % (40 * rate) < 4 * rate ? 0.08 : 0.008;
    values[n] = 2 * radius * Math.cos(turn) * values[n - 1]! - radius ** 2 * values[n - 2]! + gust * random.gaussian();
  }
  return surveyLog(
    { "rate.pitch.measured": { unit: "rad/s", of: (t) => values[Math.round(t * rate)]! } },
    { rate, duration: 600 },
  );
}

test("who accepts more false alarms sees more, and what is seen with few is seen with many", () => {
  const log = ringing();
  const seen = [100, 1, 0.001].map((rate) => oscillation.detect(buildFlight(log, null, rate)).length);
  expect(seen[0]).toBeGreaterThan(seen[2]!);
  expect(seen[0]).toBeGreaterThanOrEqual(seen[1]!);
  expect(seen[1]).toBeGreaterThanOrEqual(seen[2]!);
});
