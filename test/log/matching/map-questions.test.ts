import { expect, test } from "vitest";
import { loadLog } from "../../../src/log/index.ts";
import { csv, numbers, temporaryFolder } from "../../support/index.ts";

const folder = temporaryFolder();
const time = numbers(200, (i) => i / 100);
const small = numbers(200, (i) => Math.sin(i / 9));

async function questionsOf(columns: readonly string[], map: string, clock = "time: { column: time_s, unit: s }") {
  const name = /column: (\w+)/.exec(clock)![1]!;
  const file = folder.write(
    "log.csv",
    csv({ [name]: time, ...Object.fromEntries(columns.map((one) => [one, small])) }),
  );
  const channels = folder.write("log.channels.yaml", `${clock}\nchannels:\n${map}\n`);
  return (await loadLog(file, { channels })).mapping.questions.map(({ text }) => text);
}

test("a unit that the column's name contradicts is asked about", async () => {
  expect(
    await questionsOf(["roll_rate_deg_s"], "  rate.roll.measured: { column: roll_rate_deg_s, unit: rad/s }"),
  ).toEqual(['Is "roll_rate_deg_s" really in rad/s (its name says deg/s)?']);
});

test("columns that contradict the map alike are asked about together", async () => {
  const map = ["roll", "pitch", "yaw"]
    .map((axis) => `  rate.${axis}.measured: { column: ${axis}_dps, unit: rad/s }`)
    .join("\n");
  expect(await questionsOf(["roll_dps", "pitch_dps", "yaw_dps"], map)).toEqual([
    'Are "roll_dps", "pitch_dps" and "yaw_dps" really in rad/s (their names say deg/s)?',
  ]);
});

test("so is the time's unit", async () => {
  const map = "  rate.roll.measured: { column: p, unit: rad/s }";
  expect(await questionsOf(["p"], map, "time: { column: time_us, unit: ms }")).toEqual([
    'Is "time_us" really in ms (its name says us)?',
  ]);
});

test.each([
  ["a name without a unit", "p", "rate.roll.measured: { column: p, unit: deg/s }"],
  ["the same unit", "roll_rate_deg_s", "rate.roll.measured: { column: roll_rate_deg_s, unit: deg/s }"],
  ["one of two readings of the unit", "north_ms", "velocity.north: { column: north_ms, unit: m/s }"],
  ["a unit of another kind", "roll_torque_us", "rate.roll.measured: { column: roll_torque_us, unit: rad/s }"],
  ["a scale that converts", "height_mm", "altitude: { column: height_mm, unit: m, scale: 0.001 }"],
])("%s is no contradiction", async (_, column, map) => {
  expect(await questionsOf([column], `  ${map}`)).toEqual([]);
});
