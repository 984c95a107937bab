import { gzipSync } from "node:zlib";
import { describe, expect, test } from "vitest";
import { loadLog } from "../../../src/log/index.ts";
import { temporaryFolder } from "../../support/index.ts";

const folder = temporaryFolder();
const channels = folder.write(
  "map.yaml",
  "time: { column: t, unit: s }\nchannels:\n  rate.roll.measured: { column: p, unit: rad/s }\n  altitude: { column: h, unit: m }\n",
);
const ROWS = 3000;
const rows = Array.from({ length: ROWS }, (_, i) => `${i / 100},${Math.sin(i).toFixed(4)},${i % 7}`);
const table = (last: string, changed: readonly string[] = rows) => `t,p,h\n${changed.join("\n")}\n${last}`;
const load = (content: string | Uint8Array, name = "log.csv") => loadLog(folder.write(name, content), { channels });

describe("a table that was cut off in its last row is read without it", () => {
  test.each([
    ["after a separator", "30.00,"],
    ["in the first cell", "30.0"],
    ["in a cell that is no number then", "30.00,-"],
    ["in the last cell, which is no number then", "30.00,0.5,-"],
    ["in a quoted cell", '30.00,"0.'],
    ["in a quoted last cell", '30.00,0.5,"1'],
  ])("%s", async (_, last) => {
    const log = await load(table(last));
    expect([log.rows, log.isCut]).toEqual([ROWS, true]);
    expect(log.channels.get("altitude")!.series.values.at(-1)).toBe((ROWS - 1) % 7);
  });

  test("whatever its line breaks, its separator and its words for no value", async () => {
    const gaps = rows.with(1000, "10.00,NA,3");
    for (const text of [table("30.00,0.5", gaps), table("30.00,0.5").replaceAll("\n", "\r\n")]) {
      expect([(await load(text)).rows, (await load(text)).isCut]).toEqual([ROWS, true]);
    }
    expect((await load(table("30.00,0.5").replaceAll(",", ";"))).isCut).toBe(true);
  });

  test("also where it was packed whole afterwards", async () => {
    const log = await load(gzipSync(table("30.00,0.5")), "log.csv.gz");
    expect([log.rows, log.isCut]).toEqual([ROWS, true]);
  });

  test("also where it is larger than what the engine takes at a time", async () => {
    const many = Array.from({ length: 300_000 }, (_, i) => `${i / 100},0.12345678,${i % 7}`);
    const log = await load(table("3000.00,0.5", many));
    expect([log.rows, log.isCut]).toEqual([300_000, true]);
  });

  test("also where it is short and begins with dates", async () => {
    const dated = [0, 1, 2].map((i) => `2026-05-04T10:00:0${i}Z,0.${i},${i}`);
    const log = await load(table("2026-05-04T1", dated));
    expect([log.rows, log.isCut, log.duration]).toEqual([3, true, 2]);
  });
});

test("a whole last row needs no line break", async () => {
  const log = await load(table("30.00,0.5,4"));
  expect([log.rows, log.isCut]).toEqual([ROWS + 1, false]);
});

describe("any other bad row stays an error", () => {
  test.each([
    ["a ragged last row with a line break", table("30.00,0.5\n"), /log\.csv:3002: 2 cells where the header has 3/],
    ["a last row with too many cells", table("30.00,0.5,1,2"), /log\.csv:3002: 4 cells where the header has 3/],
    ["a word in a whole last row", table("30.00,oops,4"), /log\.csv:3002.*"oops" is not a number/],
    ["a ragged row in the middle", table("30.00,0.5,4", rows.with(300, "3.00,0.1")), /log\.csv:302: 2 cells/],
    ["a ragged row in the middle and a cut one", table("30.00,0.5", rows.with(300, "3.00,0.1")), /2 cells where/],
    ["a word in the middle and a cut row", table("30.00,0.5", rows.with(300, "3.00,oops,1")), /oops|2 cells/],
  ])("%s", async (_, text, message) => {
    await expect(load(text)).rejects.toThrow(message);
  });

  test("a packed stream that is cut itself", async () => {
    await expect(load(gzipSync(table("30.00,0.5")).subarray(0, 9000), "torn.csv.gz")).rejects.toThrow(/torn\.csv\.gz/);
  });
});
