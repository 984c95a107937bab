import { expect, test } from "vitest";
import { describeChannels, formatChannelMap, loadLog } from "../../src/log/index.ts";
import { csv, messageOf, numbers, temporaryFolder } from "../support/index.ts";

const folder = temporaryFolder();
const n = 100;
const file = folder.write(
  "log.csv",
  csv({
    time_s: numbers(n, (i) => i / 50),
    "roll_rate [deg/s]": numbers(n, (i) => 90 * Math.sin(i)),
    spare: numbers(n, (i) => i),
    note: Array.from({ length: n }, () => "fine"),
    hollow: Array.from({ length: n }, () => ""),
  }),
);

test("every column is listed with its place, numbers and match", async () => {
  const { columns, log } = await describeChannels(file);
  expect(columns.map(({ name, isTime, filled }) => [name, isTime, filled])).toEqual([
    ["time_s", true, n],
    ["roll_rate [deg/s]", false, n],
    ["spare", false, n],
    ["note", false, 0],
    ["hollow", false, 0],
  ]);
  expect(columns[1]!.matches[0]).toMatchObject({ channel: "rate.roll.measured", unit: "deg/s" });
  expect(columns[1]!.sampling!.rate).toBeCloseTo(50, 6);
  expect([columns[2]!.min, columns[2]!.max, columns[2]!.sampling]).toEqual([0, 99, null]);
  expect([columns[4]!.min, columns[4]!.max]).toEqual([null, null]);
  expect(log.channels.size).toBe(1);
});

test("a map written from the match reads the log to the same numbers", async () => {
  const { log, columns } = await describeChannels(file);
  const unmatched = columns.filter(({ matches, isTime }) => matches.length === 0 && !isTime).map(({ name }) => name);
  const channels = folder.write("written.yaml", formatChannelMap(log.mapping, { unmatched }));
  const again = await loadLog(file, { channels });
  expect(again.mapping.source).toBe("file");
  expect(again.channels.get("rate.roll.measured")!.series).toEqual(log.channels.get("rate.roll.measured")!.series);
});

test("an empty column of the map is listed here, and refused where numbers are needed", async () => {
  const channels = folder.write(
    "hollow.yaml",
    "time: { column: time_s, unit: s }\nchannels:\n  altitude: { column: hollow, unit: m }\n  heading: { column: spare, unit: deg }\n",
  );
  const { log } = await describeChannels(file, { channels });
  expect(log.empty).toEqual([{ channel: "altitude", column: "hollow" }]);
  expect(await messageOf(loadLog(file, { channels }))).toContain('column "hollow"');
});

test("a stray word in a column that is no channel is no error", async () => {
  const stray = folder.write(
    "stray.csv",
    csv({
      time_s: numbers(3000, (i) => i / 50),
      roll: numbers(3000, Math.sin),
      spare: [...numbers(2999, (i) => i), "oops"],
    }),
  );
  const { columns } = await describeChannels(stray);
  expect(columns.find(({ name }) => name === "spare")).toMatchObject({ filled: 2999, max: 2998 });
  expect(columns.find(({ name }) => name === "roll")!.filled).toBe(3000);
});
