import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { loadLog } from "../../src/log/index.ts";
import { realFlights } from "../support/index.ts";

interface Flight {
  readonly file: string;
  readonly channels: string;
}

describe.skipIf(realFlights === null)("real flights", { timeout: 300_000 }, () => {
  const inFolder = (name: string) => join(realFlights!, name);
  const flights = (): Flight[] => JSON.parse(readFileSync(inFolder("truth.json"), "utf8"));

  test("logs read through its map, with every channel of the map and increasing times", async () => {
    // Logs of one rig are alike: every fifth of them, and all the others.
    for (const { file, channels } of flights().filter(({ file }, at) => at % 5 === 0 || file.startsWith("tuning/"))) {
      const log = await loadLog(inFolder(file), { channels: inFolder(channels) });
      expect(log.channels.size).toBe(log.mapping.matches.length);
      expect(log.clock.backwards + log.clock.repeated + log.clock.missing).toBe(0);
      for (const { series } of log.channels.values()) {
        expect(series.time.every((time, at) => at === 0 || time > series.time[at - 1]!)).toBe(true);
        expect(series.values.every(Number.isFinite)).toBe(true);
      }
    }
  });

  test("the tuning logs, whose columns are named in words, match as their map says, but for the axis directions", async () => {
    const tuning = flights().filter(({ file }) => file.startsWith("tuning/"));
    expect(tuning.length).toBeGreaterThan(10);
    for (const { file, channels } of tuning) {
      const mapped = await loadLog(inFolder(file), { channels: inFolder(channels) });
      const matched = await loadLog(inFolder(file));
      const byWords = new Map(matched.mapping.matches.map((match) => [match.channel, match]));
      for (const { channel, column, unit, sign } of mapped.mapping.matches) {
        const isAxis = /\.(roll|pitch|yaw)\./.test(channel);
        expect(byWords.get(channel), `${file} ${channel}`).toMatchObject({ column, unit, ...(isAxis ? {} : { sign }) });
      }
      const asked = matched.mapping.questions.map(({ text }) => text).join(" ");
      expect(asked).toMatch(/count nose up as positive\?/);
      expect(matched.mapping.time).toEqual({ column: "time", unit: "s", rate: null });
    }
  });

  test("the log that is lost after a tumble at about 7.2 s is found frozen soon after, and no other is", async () => {
    for (const { file, channels } of flights().filter(({ file }) => file.startsWith("tuning/"))) {
      const { frozenFrom, duration } = await loadLog(inFolder(file), { channels: inFolder(channels) });
      if (!file.endsWith("flight-28.csv")) expect(frozenFrom, file).toBeNull();
      else {
        expect(frozenFrom).toBeGreaterThan(7.2);
        expect(frozenFrom).toBeLessThan(8);
        expect(duration).toBeGreaterThan(15);
      }
    }
  });
});
