import { expect, test } from "vitest";
import { buildFlight } from "../../src/flight/index.ts";
import { HERON } from "../support/heron.ts";
import { type Sampled, surveyLog } from "../support/survey-log.ts";

/** Value of the piece that a time falls in; pieces are [until, value]. */
const pieces =
  (...steps: readonly (readonly [number, number])[]) =>
  (time: number) =>
    (steps.find(([until]) => time < until) ?? steps.at(-1)!)[1];

const motors = (of: (time: number) => number): Record<string, Sampled> =>
  Object.fromEntries([1, 2, 3, 4].map((n) => [`motor.${n}.command`, { unit: "us", of }]));

/** On the ground to 5 s, up to 15 s, hover, two legs at 4 and at 8 m/s with a turn between, hover, down, landed at 95 s. */
const mission = surveyLog(
  {
    ...motors(pieces([5, 1110], [95, 1500], [100, 1110])),
    altitude: {
      unit: "m",
      of: (t) => (t < 5 ? 0 : t < 15 ? 2 * (t - 5) : t < 80 ? 20 : Math.max(0, 20 - (20 / 15) * (t - 80))),
    },
    "speed.ground": { unit: "m/s", of: pieces([25, 0], [45, 4], [48, 3], [70, 8], [100, 0]) },
    heading: { unit: "rad", of: (t) => (t < 45 ? 0 : t > 48 ? Math.PI : ((t - 45) / 3) * Math.PI) },
  },
  { duration: 100 },
);

test("a mission is cut into its phases, in order, without overlap, from end to end", () => {
  const { phases, span } = buildFlight(mission, HERON);
  expect(phases.map(({ kind }) => kind).filter((kind, i, all) => kind !== all[i - 1])).toEqual([
    "ground",
    "climb",
    "hover",
    "cruise",
    "turn",
    "cruise",
    "hover",
    "descent",
    "ground",
  ]);
  expect(phases[0]!.start).toBe(span.start);
  expect(phases.at(-1)!.end).toBe(span.end);
  for (const [i, phase] of phases.entries()) if (i > 0) expect(phase.start).toBeCloseTo(phases[i - 1]!.end, 9);
});

test("speed steps get their speed and number, and legs count in order of time", () => {
  const steady = buildFlight(mission, HERON).phases.filter(({ step }) => step !== null);
  expect(steady.map(({ step, leg }) => [step, leg])).toEqual([
    [1, 1],
    [2, 2],
  ]);
  expect(steady[0]!.speed).toBeCloseTo(4, 1);
  expect(steady[1]!.speed).toBeCloseTo(8, 1);
});

test("speed steps without a turn between them are told apart too", () => {
  const log = surveyLog(
    { ...motors(() => 1500), "speed.ground": { unit: "m/s", of: pieces([20, 2], [40, 4], [60, 6]) } },
    { duration: 60 },
  );
  const steps = buildFlight(log, HERON).phases.filter(({ step }) => step !== null);
  expect(steps.map(({ step, speed }) => [step, Math.round(speed!)])).toEqual([
    [1, 2],
    [2, 4],
    [3, 6],
  ]);
});

test("air time begins and ends with the thrust, sharply to a few hundredths of a second", () => {
  const [flown, ...more] = buildFlight(mission, HERON).airborne;
  expect(more).toEqual([]);
  expect(flown!.start).toBeGreaterThanOrEqual(5);
  expect(flown!.start).toBeLessThan(5.1);
  expect(flown!.end).toBeLessThanOrEqual(95);
  expect(flown!.end).toBeGreaterThan(94.9);
});

test("a lapse of thrust in the air is no landing; a pause on the ground between two hops is one", () => {
  const lapse = surveyLog(motors(pieces([5, 1110], [20, 1500], [20.8, 1120], [40, 1500], [60, 1110])));
  expect(buildFlight(lapse, HERON).airborne).toHaveLength(1);
  const hops = surveyLog(motors(pieces([5, 1110], [20, 1500], [25, 1110], [40, 1500], [60, 1110])));
  expect(buildFlight(hops, HERON).airborne).toHaveLength(2);
});

test("without motors the height tells air time; without either the whole log counts, and says so", () => {
  const byHeight = buildFlight(surveyLog({ altitude: { unit: "m", of: pieces([10, 0], [50, 12], [60, 0]) } }), null);
  expect(byHeight.airborne[0]!.start).toBeCloseTo(10, 1);
  expect(byHeight.airborneBy).toMatch(/height/);
  const byNothing = buildFlight(surveyLog({ "rate.roll.measured": { unit: "rad/s", of: Math.sin } }), null);
  expect(byNothing.airborne).toEqual([{ start: 0, end: 60 }]);
  expect(byNothing.airborneBy).toMatch(/nothing in this log tells/);
});

test("nothing after the moment in which the log froze is kept", () => {
  const flight = buildFlight(
    surveyLog(
      motors(() => 1500),
      { frozenFrom: 30 },
    ),
    HERON,
  );
  expect(flight.span.end).toBe(30);
  for (const { series } of flight.log.channels.values()) expect(series.time.at(-1)!).toBeLessThanOrEqual(30);
});

test("a long pause in the rows is a phase of its own that nobody knows", () => {
  const log = surveyLog(
    { ...motors(() => 1500), "speed.ground": { unit: "m/s", of: () => 5 }, altitude: { unit: "m", of: () => 20 } },
    { gaps: [{ start: 20, end: 26 }] },
  );
  const unknown = buildFlight(log, HERON).phases.find(({ start, end }) => start < 23 && end > 23)!;
  expect(unknown.kind).toBe("unknown");
});

test("motors that do not fit the aircraft file are refused in one line that says which", () => {
  const five = surveyLog({ ...motors(() => 1500), "motor.5.command": { unit: "us", of: () => 1500 } });
  expect(() => buildFlight(five, HERON)).toThrow(/survey\.csv: the log has motor\.5\.command but the aircraft has 4/);
  const three = surveyLog({
    "motor.1.command": { of: () => 1500 },
    "motor.2.command": { of: () => 1500 },
    "motor.4.command": { of: () => 1500 },
  });
  expect(() => buildFlight(three, HERON)).toThrow(/the aircraft has 4 motors but the log has no motor\.3\.command/);
});
