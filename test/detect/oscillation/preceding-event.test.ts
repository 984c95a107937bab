import { describe, expect, test } from "vitest";
import { phaseAt, precedingEvent } from "../../../src/detect/oscillation/preceding-event.ts";
import { buildFlight } from "../../../src/flight/index.ts";
import { HERON } from "../../support/heron.ts";
import { surveyLog } from "../../support/survey-log.ts";

const { max } = HERON.command;
const hover = (max + HERON.command.idle) / 2;

function flightOf({ ceilingFrom = 99, stepAt = 99, swings = false, mode = 99 }) {
  const motors = Object.fromEntries(
    HERON.motors.map((_, i) => [
      `motor.${i + 1}.command`,
      { unit: HERON.command.unit, of: (t: number) => (i === 2 && t >= ceilingFrom ? max : hover) },
    ]),
  );
  const log = surveyLog(
    {
      ...motors,
      "attitude.pitch.setpoint": {
        unit: "rad",
        of: (t) => (swings ? 0.3 * Math.sin(6 * t) : t >= stepAt ? 0.2 : 0),
      },
    },
    { duration: 40 },
  );
  const modes = { time: Float64Array.of(0, mode), values: ["hold", "survey"] };
  return buildFlight({ ...log, mode: mode < 99 ? modes : null }, HERON);
}

const onset = { value: 20, unit: "s", low: 19.5, high: 20.5 };

describe("what happened last before an oscillation began", () => {
  test("a motor that reached its ceiling 0.8 s before", () => {
    const event = precedingEvent(flightOf({ ceilingFrom: 19.2 }), "pitch", onset, 2)!;
    expect(event).toMatchObject({ kind: "motor-ceiling", motor: 3 });
    expect(event.before).toBeCloseTo(0.8, 2);
  });

  test("the later of a step of the set point and a change of mode", () => {
    expect(precedingEvent(flightOf({ stepAt: 19.4, mode: 19 }), "pitch", onset, 2)!.kind).toBe("set-point-step");
    expect(precedingEvent(flightOf({ stepAt: 19, mode: 19.5 }), "pitch", onset, 2)!.kind).toBe("mode-change");
  });

  test("nothing, where it lies further back than the first cycles take, or the data begin with the swing", () => {
    expect(precedingEvent(flightOf({ stepAt: 15 }), "pitch", onset, 2)).toBeNull();
    expect(precedingEvent(flightOf({ stepAt: 19.4 }), "pitch", { value: 20, unit: "s" }, 2)).toBeNull();
  });

  test("a set point that swings to and fro is no step", () => {
    expect(precedingEvent(flightOf({ swings: true }), "pitch", onset, 2)).toBeNull();
  });
});

test("the phase is the one that holds the moment", () => {
  const flight = flightOf({});
  const [first] = flight.phases;
  expect(phaseAt(flight, first!.start)).toBe(first);
  expect(phaseAt(flight, 1e6)).toBeNull();
});
