import { expect, test } from "vitest";
import { forecastHeadroom, forecastHeadroomAt, type HeadroomPoint } from "../../src/detect/headroom-forecast.ts";
import { randomGenerator } from "../../src/signal/index.ts";

const SPEEDS = [0, 4, 4, 7, 7, 10, 10];
/** A world that is one straight line with the same scatter everywhere. */
const LINE = { growth: 0, departure: 0, scatter: 1, spent: 0 };
const at = (speed: number, above: number, below = 0.5): HeadroomPoint => ({
  speed,
  step: speed === 0 ? null : speed,
  above,
  below,
});

test("headroom that falls with the square of speed runs out at the root of the line", () => {
  const forecast = forecastHeadroom(
    SPEEDS.map((speed) => at(speed, 0.4 * (1 - (speed / 13) ** 2))),
    "ceiling",
    LINE,
  )!;
  expect(forecast.speed).toBeCloseTo(13, 9);
  expect(forecast.low).toBeCloseTo(13, 6);
  expect(forecast.high).toBeCloseTo(13, 6);
});

test("nothing is told of speeds beyond one and a half times those flown, of headroom that grows, or from two speeds", () => {
  const falling = (limit: number) => SPEEDS.map((speed) => at(speed, 0.4 * (1 - (speed / limit) ** 2)));
  expect(forecastHeadroom(falling(14.9), "ceiling", LINE)).not.toBeNull();
  expect(forecastHeadroom(falling(15.1), "ceiling", LINE)).toBeNull();
  expect(forecastHeadroom(falling(13), "floor")).toBeNull();
  expect(forecastHeadroom([at(0, 0.4), at(5, 0.3), at(5, 0.31), at(5, 0.3)], "ceiling")).toBeNull();
});

test("with normal scatter the 90 % interval holds where one more leg meets the limit in 85 to 95 % of trials", () => {
  const random = randomGenerator(9);
  let held = 0;
  let told = 0;
  for (let trial = 0; trial < 600; trial++) {
    const noisy = SPEEDS.map((speed) => at(speed, 0.4 * (1 - (speed / 12) ** 2) + 0.012 * random.gaussian()));
    const forecast = forecastHeadroom(noisy, "ceiling", LINE);
    if (forecast === null) continue;
    told++;
    // The next leg has scatter of its own: it meets the limit where its own headroom is nothing.
    const met = 12 * Math.sqrt(Math.max(0, 1 + (0.012 * random.gaussian()) / 0.4));
    if (met >= forecast.low && met <= (forecast.high ?? Number.POSITIVE_INFINITY)) held++;
  }
  expect(told).toBeGreaterThan(570);
  expect(held / told).toBeGreaterThan(0.85);
  expect(held / told).toBeLessThan(0.95);
});

test("a steady wind along the legs is told apart: the way into it meets the limit first, at its own speed over ground", () => {
  // Headroom goes with airspeed squared; 2 m/s against the nose on the way out.
  const flown = [3, 6, 9].flatMap((speed) =>
    ([1, -1] as const).map((way) => ({ ...at(speed, 0.4 * (1 - ((speed + 2 * way) / 13) ** 2)), way })),
  );
  const hover = at(0, 0.4 * (1 - (2 / 13) ** 2));
  const forecast = forecastHeadroom([hover, ...flown], "ceiling", LINE)!;
  expect(forecast.way).toBe(1);
  expect(forecast.speed).toBeCloseTo(11, 6);
});

test("beyond the fastest step headroom falls faster by the stated share, down to the share that counts as none", () => {
  const fallen = (speed: number) => 0.4 * (1 - (speed / 15) ** 2);
  const forecast = forecastHeadroom(
    SPEEDS.map((speed) => at(speed, fallen(speed))),
    "ceiling",
    { ...LINE, growth: 0.5, spent: 0.02 },
  )!;
  // 0.4 - k v^2 - 0.5 k (v^2 - 100) = 0.02 with k = 0.4 / 225
  const k = 0.4 / 225;
  expect(forecast.speed).toBeCloseTo(Math.sqrt((0.38 + 50 * k) / (1.5 * k)), 9);
  expect(forecastHeadroomAt(forecast, 7)).toBeCloseTo(fallen(7), 9);
  expect(forecastHeadroomAt(forecast, forecast.speed)).toBeCloseTo(0.02, 9);
});

test("a law not sure beyond the steps widens the interval beyond them only", () => {
  const points = SPEEDS.map((speed) => at(speed, 0.4 * (1 - (speed / 13) ** 2) + (speed === 7 ? 0.001 : 0)));
  const [sure, unsure] = [0, 0.25].map((departure) => forecastHeadroom(points, "ceiling", { ...LINE, departure })!);
  expect(unsure!.speed).toBeCloseTo(sure!.speed, 9);
  expect(unsure!.low).toBeLessThan(sure!.low - 0.1);
  expect(unsure!.low).toBeGreaterThan(10);
});

test("a leg that stood at the limit caps the forecast", () => {
  const flown = SPEEDS.map((speed) => at(speed, speed === 10 ? 0 : 0.4 * (1 - (speed / 20) ** 2)));
  const forecast = forecastHeadroom([...flown, at(8, 0.33)], "ceiling", LINE)!;
  expect(forecast.speed).toBe(10);
});
