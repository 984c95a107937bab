import { expect, test } from "vitest";
import { aircraftQuestions, buildFlight } from "../../src/flight/index.ts";
import type { Log } from "../../src/log/index.ts";
import { HERON } from "../support/heron.ts";
import { surveyLog } from "../support/survey-log.ts";

const flown = (unit: string, ground: number, hover: number) =>
  surveyLog(
    Object.fromEntries(
      [1, 2, 3, 4].map((motor) => [`motor.${motor}.command`, { unit, of: (t: number) => (t > 5 ? hover : ground) }]),
    ),
  );
const byWords = (log: Log): Log => ({ ...log, mapping: { ...log.mapping, source: "words" } });
const asked = (log: Log) => aircraftQuestions(log, HERON).map(({ text }) => text);

test("commands within the range of the aircraft file raise no question, nor do zeros of motors at rest", () => {
  expect(asked(flown("us", 1050, 1480))).toEqual([]);
  expect(asked(flown("us", 0, 1480))).toEqual([]);
  expect(aircraftQuestions(flown("us", 1050, 1480), null)).toEqual([]);
});

test("commands in another unit than the aircraft file's are refused where a map says so, with place and remedy", () => {
  const log = flown("1", 0, 0.5);
  const mapped = { ...log, mapping: { ...log.mapping, file: "survey.channels.yaml" } };
  expect(() => buildFlight(mapped, HERON)).toThrow(
    /^survey\.channels\.yaml, key channels\.motor\.1\.command\.unit: is "1", but command\.unit of the aircraft file is us; give both/,
  );
});

test("where words matched them, another unit is a question", () => {
  const log = byWords(flown("1", 0, 0.5));
  expect(() => buildFlight(log, HERON)).not.toThrow();
  expect(asked(log)).toEqual([
    "Are the motor commands in us as in the aircraft file, and not in plain numbers (unit 1)?",
  ]);
});

test("commands that hardly rise above the bottom of the range, or go far beyond its top, put the aircraft file in doubt", () => {
  expect(asked(flown("us", 0, 1090))).toEqual([
    "Is this the right aircraft file (its motor commands go from 1050 to 1950, those of the log up to 1090)?",
  ]);
  expect(asked(flown("us", 0, 2450))[0]).toMatch(/those of the log up to 2450/);
  expect(asked(flown("us", 0, 2390))).toEqual([]);
});
