import { expect, test } from "vitest";
import { dataQuality, tracking } from "../../src/detect/index.ts";
import { buildFlight, channelOf } from "../../src/flight/index.ts";
import { surveyLog } from "../support/survey-log.ts";

const swing = (t: number) => 0.8 * Math.sin(9 * t);

const flightOf = (asked: (t: number) => number, loop = "rate.roll", measured = swing) =>
  buildFlight(
    surveyLog({
      [`${loop}.measured`]: { unit: "rad/s", of: measured },
      [`${loop}.setpoint`]: { unit: "rad/s", of: asked },
    }),
    null,
  );

const problemsOf = (flight: ReturnType<typeof flightOf>) =>
  dataQuality.detect(flight).flatMap(({ problem, channel }) => (problem === "still-set-point" ? [channel] : []));

test.each([
  ["at zero", () => 0],
  ["at another value", () => 0.3],
  ["but for its last digits", (t: number) => 2e-4 * Math.sin(50 * t)],
])("a rate set point that stands still %s while roll swings counts as not logged, and is told", (_, asked) => {
  const flight = flightOf(asked);
  expect(channelOf(flight, "rate.roll.setpoint")).toBeUndefined();
  expect(tracking.missing(flight)).toContain("rate.AXIS.setpoint");
  expect(problemsOf(flight)).toEqual(["rate.roll.setpoint"]);
});

test("a set point that asks for something once, or for a little all the time, is one", () => {
  for (const asked of [(t: number) => (t > 30 && t < 31 ? 1 : 0), (t: number) => 0.02 * Math.sin(t)]) {
    const flight = flightOf(asked);
    expect(tracking.detect(flight)).toHaveLength(1);
    expect(problemsOf(flight)).toEqual([]);
  }
});

test("a stick at rest and a heading to keep are orders; an axis that stands still tells nothing", () => {
  for (const loop of ["rate.yaw", "attitude.yaw", "attitude.pitch"])
    expect(tracking.detect(flightOf(() => 0, loop)), loop).toHaveLength(1);
  expect(
    channelOf(
      flightOf(
        () => 0,
        "rate.pitch",
        () => 0,
      ),
      "rate.pitch.setpoint",
    ),
  ).toBeDefined();
});
