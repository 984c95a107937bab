import { expect, test } from "vitest";
import { dataQuality } from "../../src/detect/index.ts";
import { makeFindings } from "../../src/findings/index.ts";
import { buildFlight } from "../../src/flight/index.ts";
import type { Log } from "../../src/log/index.ts";
import { HERON } from "../support/heron.ts";
import { type Sampled, type SurveyOptions, surveyLog } from "../support/survey-log.ts";

const roll = { "rate.roll.measured": { unit: "rad/s", of: Math.sin } };
const aloft: Sampled = { unit: "m", of: (t) => (t > 5 ? 16.6 : 0) };
const command: Sampled = { unit: "us", of: (t) => (t > 5 ? 1500 : 1050) };
const motors = Object.fromEntries([1, 2, 3, 4].map((motor) => [`motor.${motor}.command`, command]));

function told(log: Log, aircraft: Parameters<typeof buildFlight>[1] = null) {
  const evidence = dataQuality.detect(buildFlight(log, aircraft));
  const findings = makeFindings({ evidence, motorName: String, phaseName: ({ kind }) => kind });
  return { problems: evidence.map(({ problem }) => problem), evidence, findings };
}
const survey = (channels: Record<string, Sampled>, options?: SurveyOptions) =>
  surveyLog({ ...roll, ...channels }, options);

test("a log that ends in the air says so, with height and mean command", () => {
  const { problems, findings } = told(survey({ ...motors, altitude: aloft }), HERON);
  expect(problems).toEqual(["ends-in-air"]);
  expect(findings[0]).toMatchObject({ severity: "advisory", start: 60, end: 60, channel: "all" });
  expect(findings[0]!.summary).toMatch(
    /^The log ends in the air, 16\.6 m up with motors running \(50 % of their range/,
  );
  expect(findings[0]!.next[0]).toMatch(/before the next flight/);
});

test("without an aircraft file the range of the commands is not known, so no share of it is given", () => {
  const { evidence, findings } = told(survey(motors));
  expect(Object.keys(evidence[0]!.measures)).toEqual(["flown"]);
  expect(findings[0]!.summary).toMatch(/^The log ends in the air: what came after is not known/);
});

test("a height that stopped coming before the end is not given for the height at the end", () => {
  const log = survey({ ...motors, altitude: aloft });
  const { series, ...altitude } = log.channels.get("altitude")!;
  const early = { time: series.time.slice(0, 2500), values: series.values.slice(0, 2500) };
  const channels = new Map([...log.channels, ["altitude", { ...altitude, series: early }] as const]);
  expect(Object.keys(told({ ...log, channels }).evidence[0]!.measures)).toEqual(["flown"]);
});

test("a log that ends on the ground, even a moment after the landing, is as it should be", () => {
  const down: Sampled = { unit: "m", of: (t) => (t > 5 && t < 59.5 ? 16.6 : 0) };
  expect(told(survey({ altitude: down })).problems).toEqual([]);
});

test("motors that run to the end near the ground are told without saying that it is in the air", () => {
  const down: Sampled = { unit: "m", of: (t) => (t > 5 && t < 59.5 ? 16.6 : 0) };
  const { findings } = told(survey({ ...motors, altitude: down }), HERON);
  expect(findings[0]!.summary).toMatch(
    /^The log ends before the landing was over, near the height of the take-off point/,
  );
});

test("a stretch that was cut in the air on request is a note", () => {
  const log = survey({ altitude: aloft });
  const { problems, findings } = told({ ...log, stretch: { start: 0, end: 40 } });
  expect(problems).toEqual(["stretch-ends-in-air"]);
  expect(findings[0]).toMatchObject({ severity: "note" });
});

test("where nothing tells air time, a note says that the end is not told either", () => {
  const { problems, findings } = told(survey({}));
  expect(problems).toEqual(["end-untold"]);
  expect(findings[0]).toMatchObject({ severity: "note" });
});

test("a frozen end is told once", () => {
  expect(told(survey({ altitude: aloft }, { frozenFrom: 45 })).problems).toEqual(["frozen-end"]);
});

test("a log that was cut off in a row is told once, the more urgently the surer it ends in the air", () => {
  const cut = (channels: Record<string, Sampled>, options?: SurveyOptions) =>
    told({ ...survey(channels, options), isCut: true });
  const inAir = cut({ altitude: aloft });
  expect(inAir.problems).toEqual(["cut-row"]);
  expect(inAir.findings[0]).toMatchObject({ severity: "caution" });
  expect(inAir.findings[0]!.summary).toMatch(
    /^The log ends in the middle of a row, in the air, 16\.6 m up: it was cut off/,
  );
  const down: Sampled = { unit: "m", of: (t) => (t > 5 && t < 50 ? 16.6 : 0) };
  expect(cut({ altitude: down }).findings.map(({ severity }) => severity)).toEqual(["note"]);
  expect(cut({}).findings.map(({ severity }) => severity)).toEqual(["advisory"]);
  expect(cut({ altitude: aloft }, { frozenFrom: 45 }).problems).toEqual(["frozen-end", "cut-row"]);
});
