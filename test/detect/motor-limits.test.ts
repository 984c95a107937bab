import fc from "fast-check";
import { expect, test } from "vitest";
import { motorFloor, motorHeadroom, motorSaturation } from "../../src/detect/index.ts";
import { buildFlight } from "../../src/flight/index.ts";
import { HERON } from "../support/heron.ts";
import { surveyLog } from "../support/survey-log.ts";

const quad = (third: (time: number) => number, rate = 50) =>
  surveyLog(
    {
      "motor.1.command": { unit: "us", of: () => 1500 },
      "motor.2.command": { unit: "us", of: () => 1500 },
      "motor.3.command": { unit: "us", of: third },
      "motor.4.command": { unit: "us", of: () => 1500 },
    },
    { rate },
  );

test("a clipped sine spends 1 - (2/pi) asin(c/A) of its time at either limit (published check OD-13: A/c = 2 gives 2/3)", () => {
  // Swings of twice the range about its middle; 60 s hold 24 whole periods. The floor is idle, so it clips there sooner.
  const middle = (1110 + 1950) / 2;
  const swing = (time: number) => middle + 840 * Math.sin(2 * Math.PI * 0.4 * time + 0.3);
  const flight = buildFlight(
    quad((t) => Math.min(1950, Math.max(1110, swing(t))), 500),
    HERON,
  );
  const [top] = motorSaturation.detect(flight);
  const [bottom] = motorFloor.detect(flight);
  expect(top!.motor).toBe(3);
  expect(top!.measures.share!.value + bottom!.measures.share!.value).toBeCloseTo(2 / 3, 2);
  expect(top!.measures.episodes!.value).toBe(24);
  // A third of a 2.5 s period at each end.
  expect(top!.measures.longest!.value).toBeCloseTo(2.5 / 3, 1);
});

test("a motor that keeps off its limits has no finding", () => {
  const flight = buildFlight(
    quad((t) => 1500 + 380 * Math.sin(t)),
    HERON,
  );
  expect(motorSaturation.detect(flight)).toEqual([]);
  expect(motorFloor.detect(flight)).toEqual([]);
});

test("whole microseconds one short of the ceiling are not at it; a command logged with half a step of error is", () => {
  const rounded = buildFlight(
    quad((t) => Math.min(1949, Math.round(1900 + 100 * Math.sin(t)))),
    HERON,
  );
  expect(motorSaturation.detect(rounded)).toEqual([]);
  const shifted = buildFlight(
    quad((t) => Math.min(1949.6, Math.round(1900 + 100 * Math.sin(t)) + 0.6)),
    HERON,
  );
  expect(motorSaturation.detect(shifted)).toHaveLength(1);
});

test("share equals a direct count of samples over the air time, whatever the commands", () => {
  fc.assert(
    fc.property(fc.array(fc.integer({ min: 1110, max: 1950 }), { minLength: 8, maxLength: 40 }), (levels) => {
      const flight = buildFlight(
        quad((t) => levels[Math.floor(t) % levels.length]!),
        HERON,
      );
      const { time, values } = flight.log.channels.get("motor.3.command")!.series;
      const inAir = [...time.keys()].filter((i) =>
        flight.airborne.some(({ start, end }) => time[i]! >= start && time[i]! <= end),
      );
      const counted = inAir.filter((i) => values[i]! >= 1950).length / Math.max(1, inAir.length);
      const found = motorSaturation.detect(flight).find(({ motor }) => motor === 3);
      expect(found?.measures.share?.value ?? 0).toBeCloseTo(counted, 12);
    }),
    { numRuns: 40, seed: 1 },
  );
});

test("the time at a limit is told by phase and speed step", () => {
  const flight = buildFlight(
    surveyLog({
      "motor.1.command": { unit: "us", of: () => 1500 },
      "motor.2.command": { unit: "us", of: () => 1500 },
      "motor.3.command": { unit: "us", of: (t) => (t > 30 && t < 35 ? 1110 : 1500) },
      "motor.4.command": { unit: "us", of: () => 1500 },
      "speed.ground": { unit: "m/s", of: (t) => (t < 20 ? 3 : 9) },
    }),
    HERON,
  );
  const [floor] = motorFloor.detect(flight);
  expect(floor!.where[0]!.phase).toMatchObject({ kind: "cruise", step: 2 });
  expect(floor!.where[0]!.seconds).toBeCloseTo(5, 1);
});

test("headroom: a servo pulse of 1100 to 1900 us whose mean is 1466 us works at 45.8 % of its range (common practice)", () => {
  const aircraft = { ...HERON, command: { unit: "us", min: 1100, max: 1900, idle: 1100 } };
  const flight = buildFlight(
    quad((t) => 1466 + 100 * Math.sin(2 * Math.PI * t)),
    aircraft,
  );
  const third = motorHeadroom.detect(flight).find(({ motor }) => motor === 3)!;
  expect(third.measures.mean!.value).toBeCloseTo(366 / 800, 4);
  expect(third.measures.above!.value).toBeCloseTo(1 - 566 / 800 + 100 / 800, 1);
});

test("headroom as thrust: a command fraction of 0.8 is a thrust share of 0.64 at exponent 2", () => {
  const flight = buildFlight(
    quad(() => 1050 + 0.8 * 900),
    HERON,
  );
  const third = motorHeadroom.detect(flight).find(({ motor }) => motor === 3)!;
  expect(third.measures.above!.value).toBeCloseTo(0.2, 6);
  expect(third.measures["thrust-above"]!.value).toBeCloseTo(1 - 0.64, 6);
});

test("without an aircraft file a ceiling is claimed only where the top of the data is held, and said to be from the data", () => {
  const moving = buildFlight(
    quad((t) => 1500 + 300 * Math.sin(t)),
    null,
  );
  expect(motorSaturation.missing(moving)).toEqual(["aircraft file: command"]);
  const held = buildFlight(
    quad((t) => Math.min(1700, 1500 + 300 * Math.sin(t))),
    null,
  );
  expect(motorSaturation.missing(held)).toEqual([]);
  expect(motorSaturation.detect(held)[0]!.limit).toMatchObject({ command: 1700, from: "data" });
  expect(motorFloor.missing(held)).toEqual(["aircraft file: command"]);
});

test("without motor commands the detectors name what they need", () => {
  const flight = buildFlight(surveyLog({ altitude: { unit: "m", of: () => 10 } }), HERON);
  for (const detector of [motorSaturation, motorFloor, motorHeadroom]) {
    expect(detector.missing(flight)).toEqual(["motor.N.command"]);
  }
});
