import { expect, test } from "vitest";
import { dataQuality } from "../../src/detect/index.ts";
import { buildFlight } from "../../src/flight/index.ts";
import { surveyLog } from "../support/survey-log.ts";

/** goes up at 5 s and is down again at 50 s of 60 s */
const landed = { unit: "m", of: (t: number) => (t > 5 && t < 50 ? 20 : 0) };
const moving = { "rate.roll.measured": { unit: "rad/s", of: Math.sin }, altitude: landed };

test("a clean log has no evidence against it", () => {
  expect(dataQuality.detect(buildFlight(surveyLog(moving), null))).toEqual([]);
});

test("a pause of all rows is told once, with its length and whether it lies in the air", () => {
  const evidence = dataQuality.detect(buildFlight(surveyLog(moving, { gaps: [{ start: 20, end: 22.5 }] }), null));
  expect(evidence).toHaveLength(1);
  expect(evidence[0]).toMatchObject({ problem: "row-gaps", channel: "all", inAir: true, start: 20, end: 22.5 });
  expect(evidence[0]!.measures.longest!.value).toBe(2.5);
});

test("a frozen end is told with its length, and that it began in the air", () => {
  const [frozen] = dataQuality.detect(buildFlight(surveyLog(moving, { frozenFrom: 45 }), null));
  expect(frozen).toMatchObject({ problem: "frozen-end", start: 45, end: 60, inAir: true });
  expect(frozen!.measures.stuck!.value).toBe(15);
});

test("a body rate logged too slowly to judge the loop is told", () => {
  const log = surveyLog({ ...moving, "rate.roll.measured": { unit: "rad/s", rate: 10, of: Math.sin } });
  expect(dataQuality.detect(buildFlight(log, null)).map(({ problem }) => problem)).toEqual(["slow-channel"]);
});

test("dropped stamps, a channel's own gaps, stuck stretches and empty columns are each told", () => {
  const log = surveyLog(moving);
  const channel = log.channels.get("rate.roll.measured")!;
  const damaged = {
    ...log,
    channels: new Map([
      ...log.channels,
      [channel.name, { ...channel, gaps: [{ start: 5, end: 6 }], stuck: [{ start: 30, end: 33 }] }],
    ]),
    clock: { ...log.clock, repeated: 4, backwards: 1, firstBackwards: 12 },
    empty: [{ channel: "battery.voltage", column: "pack_v" }],
  };
  const problems = dataQuality.detect(buildFlight(damaged, null)).map(({ problem }) => problem);
  expect(problems.sort()).toEqual(["channel-gaps", "empty-column", "stamps", "stuck"]);
});
