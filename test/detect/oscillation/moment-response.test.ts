import { describe, expect, test } from "vitest";
import { AXES } from "../../../src/aircraft/index.ts";
import { oscillation } from "../../../src/detect/index.ts";
import { momentResponse } from "../../../src/detect/oscillation/moment-response.ts";
import { gainFactorForDamping } from "../../../src/simulate/control/loop-pole.ts";
import { BUILT_IN_AIRCRAFT, defineScenario, type ScenarioInput } from "../../../src/simulate/index.ts";
import { setUp } from "../../../src/simulate/scenario/setup.ts";
import { simulatedFlight } from "../simulated-flight.ts";

/** Doublets on one axis in light gusts, as every layout flies them. */
const flown = (layout: string, axis: "roll" | "pitch"): ScenarioInput => ({
  name: "doublets",
  seed: 31,
  aircraft: BUILT_IN_AIRCRAFT[layout]!,
  air: { wind: { speed: 2, from: 40 }, gusts: 6 },
  log: { rate: 100 },
  mission: [
    { do: "aloft", height: 15 },
    { do: "hover", seconds: 5 },
    { do: "sticks", axis, shape: "doublet", degrees: 12, seconds: 6 },
    { do: "hover", seconds: 5 },
    { do: "sticks", axis, shape: "doublet", degrees: 15, seconds: 5 },
    { do: "hover", seconds: 5 },
  ],
});

describe.each(Object.keys(BUILT_IN_AIRCRAFT))("%s", (layout) => {
  const axis = layout.length % 2 === 0 ? "roll" : "pitch";
  const input = flown(layout, axis);
  const { flight } = simulatedFlight(input);
  const { vehicle } = setUp(defineScenario(input));
  const response = momentResponse(flight, axis, [])!;

  test("effectiveness is one over the moment of inertia, within a tenth", () => {
    const { value, low, high, unit } = response.effectiveness;
    const ratio = value * vehicle.inertia[AXES.indexOf(axis)]!;
    expect(unit).toBe("1/(kg*m2)");
    expect(Math.abs(ratio - 1)).toBeLessThan(0.1);
    expect(high! / low!).toBeLessThan(1.6);
  });

  test("lag is the motors', within 15 ms, and what comes later besides is a row or two", () => {
    const truth = input.aircraft!.thrust.timeConstant!.value;
    expect(Math.abs(response.lag.value - truth)).toBeLessThan(0.015);
    expect(response.delay.value).toBeGreaterThan(0);
    expect(response.delay.value).toBeLessThan(0.035);
  });
});

test("an axis whose set point never moved tells nothing", () => {
  const { flight } = simulatedFlight(flown("survey-quad", "roll"));
  expect(momentResponse(flight, "yaw", [])).toBeNull();
});

test("what is left out is not looked at", () => {
  const { flight } = simulatedFlight(flown("survey-quad", "roll"));
  expect(momentResponse(flight, "roll", [{ start: 0, end: 200 }])).toBeNull();
});

describe("an oscillation after doublets is weighed by what they told", () => {
  const input = flown("survey-quad", "roll");
  const mission: ScenarioInput["mission"] = [...input.mission!, { do: "hover", seconds: 25 }];
  const foundWith = (fault: NonNullable<ScenarioInput["faults"]>[number]) => {
    const { flight } = simulatedFlight({ ...input, mission, faults: [fault] });
    return oscillation.detect(flight).find(({ axis }) => axis === "roll")!;
  };
  const setup = setUp(defineScenario(input));

  test("a loop that lost its stability: the motors make all of the motion", () => {
    const factor = gainFactorForDamping(setup, "roll", -0.05);
    const { driver, decision, measures } = foundWith({ kind: "rate-gain", axis: "roll", factor, start: 45 });
    expect(decision.drive!.answerFrom).toBe("flight");
    expect(driver).toBe("controller");
    const { value, low, high } = decision.drive!.share!;
    expect(Math.abs(value - 1)).toBeLessThan(0.2);
    expect(high! / low!).toBeLessThan(2);
    const ratio = measures.effectiveness!.value * setup.vehicle.inertia[0]!;
    expect(Math.abs(ratio - 1)).toBeLessThan(0.15);
    expect(measures.motorLag!.unit).toBe("s");
  });

  test("a push from outside: the motors brake it", () => {
    const size = setup.vehicle.inertia[0]! * 2 * Math.PI * 2;
    const found = foundWith({ kind: "periodic-moment", axis: "roll", frequency: 2, size, start: 45 });
    expect(found.decision.drive!.answerFrom).toBe("flight");
    expect(found.driver).toBe("external");
  });
});
