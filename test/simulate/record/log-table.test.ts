import { describe, expect, test } from "vitest";
import { fly } from "../../../src/simulate/flight/fly.ts";
import type { FaultInput } from "../../../src/simulate/index.ts";
import { logTable } from "../../../src/simulate/record/log-table.ts";
import { defineScenario } from "../../../src/simulate/scenario/scenario.ts";
import { builtInAircraft } from "../support/flights.ts";

function logWith(...faults: FaultInput[]) {
  return logTable(
    fly(
      defineScenario({
        name: "test",
        aircraft: builtInAircraft("small-quad"),
        mission: [
          { do: "aloft", height: 20 },
          { do: "hover", seconds: 10 },
        ],
        faults,
      }),
    ),
  );
}

const column = (log: ReturnType<typeof logWith>, channel: string) =>
  log.columns.find((entry) => entry.channel === channel)!;

describe("a log", () => {
  const log = logWith();

  test("begins at 0 and keeps its rate, each row a little late", () => {
    expect(log.time[0]).toBe(0);
    expect(log.rows).toBe(1000);
    for (let i = 1; i < log.rows; i++) expect(log.time[i]! - log.time[i - 1]!).toBeGreaterThan(0.005);
  });

  test("holds each group of channels at its own rate and leaves the cells between empty", () => {
    const filled = (channel: string) =>
      column(log, channel).values.filter((value) => !Number.isNaN(value)).length / log.rows;
    expect(filled("rate.roll.measured")).toBe(1);
    expect(filled("motor.2.command")).toBeCloseTo(1 / 2, 2);
    expect(filled("battery.voltage")).toBeCloseTo(1 / 20, 2);
  });

  test("is rounded: whole microseconds, hundredths of a degree per second", () => {
    for (const value of column(log, "motor.1.command").values) {
      if (!Number.isNaN(value)) expect(Number.isInteger(value)).toBe(true);
    }
    for (const value of column(log, "rate.yaw.measured").values) {
      expect(Math.abs(value * 100 - Math.round(value * 100))).toBeLessThan(1e-6);
    }
  });
});

describe("logging faults", () => {
  test("a gap leaves its rows out", () => {
    const { time } = logWith({ kind: "log-gap", start: 3, end: 4.5 });
    expect(time.some((t) => t >= 3 && t < 4.5)).toBe(false);
    expect(Math.max(...time.map((t, i) => t - (time[i - 1] ?? t)))).toBeCloseTo(1.5, 1);
  });

  test("jitter moves stamps by the standard deviation stated", () => {
    const [plain, shaken] = [logWith().time, logWith({ kind: "log-jitter", sd: 0.004 }).time];
    const off = plain.map((t, i) => shaken[i]! - t).subarray(1);
    expect(Math.sqrt(off.reduce((sum, d) => sum + d * d, 0) / off.length)).toBeCloseTo(0.004, 3);
  });

  test("repeated stamps stand on every so many rows", () => {
    const { time } = logWith({ kind: "repeated-stamps", every: 10, start: 5 });
    expect(time.filter((t, i) => t === time[i - 1]).length).toBe(50);
  });

  test("a stuck channel repeats its last value while the others go on", () => {
    const log = logWith({ kind: "stuck-channel", channel: "rate.roll", start: 2, end: 6 });
    const during = (channel: string) =>
      new Set(column(log, channel).values.filter((_, i) => log.time[i]! >= 2 && log.time[i]! < 6)).size;
    expect(during("rate.roll.measured")).toBe(1);
    expect(during("rate.pitch.measured")).toBeGreaterThan(50);
  });

  test("a frozen end goes on with rows and stamps but nothing changes", () => {
    const log = logWith({ kind: "frozen-end", start: 7 });
    expect(log.rows).toBe(1000);
    for (const { values } of log.columns) {
      const after = values.filter((value, i) => log.time[i]! > 7.01 && !Number.isNaN(value));
      expect(new Set(after).size).toBeLessThanOrEqual(1);
    }
  });
});
