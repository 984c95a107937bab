import { describe, expect, test } from "vitest";
import { AXES } from "../../../src/aircraft/index.ts";
import type { Estimate } from "../../../src/detect/evidence.ts";
import { oscillation } from "../../../src/detect/index.ts";
import { momentResponse } from "../../../src/detect/oscillation/moment-response.ts";
import { buildFlight } from "../../../src/flight/index.ts";
import { randomGenerator } from "../../../src/signal/index.ts";
import { gainFactorForDamping } from "../../../src/simulate/control/loop-pole.ts";
import { BUILT_IN_AIRCRAFT, defineScenario, type ScenarioInput } from "../../../src/simulate/index.ts";
import { setUp } from "../../../src/simulate/scenario/setup.ts";
import { surveyLog } from "../../support/survey-log.ts";
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
    const { value, low, high, unit } = response.effectiveness!;
    const ratio = value * vehicle.inertia[AXES.indexOf(axis)]!;
    expect(unit).toBe("1/(kg*m^2)");
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

/** A roll axis of effectiveness 6 that a noisy loop turns: its set point steps at random, gusts turn it besides. */
function steppedFlight(motors: { readonly lags: readonly number[]; readonly delay: number }, unit = "N*m") {
  const [rate, duration] = [100, 120];
  const random = randomGenerator(7);
  const count = rate * duration + 1;
  const [asked, moment, turning] = [new Float64Array(count), new Float64Array(count), new Float64Array(count)];
  const stages = motors.lags.map(() => 0);
  const waiting = Math.round(motors.delay * rate);
  const fine = 10;
  let [level, angle, speed] = [0, 0, 0];
  for (let i = 0; i < count; i++) {
    if (i % 30 === 0) level = random.gaussian();
    asked[i] = 0.1 * level;
    moment[i] = 0.05 * (asked[i]! - angle) - 0.1 * speed + 0.002 * random.gaussian();
    turning[i] = speed;
    const gust = 0.1 * random.gaussian();
    for (let n = 0; n < fine; n++) {
      let input = moment[Math.max(0, i - waiting)]!;
      for (const [k, lag] of motors.lags.entries()) {
        stages[k]! += ((input - stages[k]!) / lag) * (1 / rate / fine);
        input = stages[k]!;
      }
      speed += (EFFECTIVENESS * input + gust - 0.2 * speed) / rate / fine;
      angle += speed / rate / fine;
    }
  }
  const of = (values: Float64Array) => (time: number) => values[Math.round(time * rate)]!;
  return buildFlight(
    surveyLog(
      {
        "rate.roll.measured": { unit: "rad/s", of: of(turning) },
        "rate.roll.output": { unit, of: of(moment) },
        "attitude.roll.setpoint": { unit: "rad", of: of(asked) },
      },
      { rate, duration },
    ),
    null,
  );
}

const EFFECTIVENESS = 6;

test.each([
  { lags: [0.3], delay: 0.02 },
  { lags: [0.05], delay: 0.09 },
])("a slow motor is fitted as slow as it is: %j", (motors) => {
  const { effectiveness, lag, delay } = momentResponse(steppedFlight(motors), "roll", [])!;
  const isWithin = ({ low, high }: Estimate, truth: number) => low! < truth && truth < high!;
  expect(isWithin(lag, motors.lags[0]!)).toBe(true);
  // A command that is held for a row comes half a row later.
  expect(isWithin(delay, motors.delay + 0.005)).toBe(true);
  expect(isWithin(effectiveness!, EFFECTIVENESS)).toBe(true);
  expect(Math.abs(effectiveness!.value / EFFECTIVENESS - 1)).toBeLessThan(0.25);
});

test("an output of no known unit tells lag and delay, and no effectiveness", () => {
  const response = momentResponse(steppedFlight({ lags: [0.05], delay: 0.02 }, "1"), "roll", [])!;
  expect(response.effectiveness).toBeNull();
  expect(response.lag.value).toBeGreaterThan(0);
  expect(response.at(2 * Math.PI * 2, 0)!.gain).toBeGreaterThan(0);
});

test.each([
  { lags: [0.8], delay: 0.02 },
  { lags: [0.05], delay: 0.2 },
])("a motor slower than any that is tried is not fitted: %j", (motors) => {
  expect(momentResponse(steppedFlight(motors), "roll", [])).toBeNull();
});

test("near the frequencies that were compared the answer of a motor of two lags is held, far from them none is given", () => {
  const response = momentResponse(steppedFlight({ lags: [0.05, 0.05], delay: 0.02 }), "roll", [])!;
  expect(response.at(2 * Math.PI * 20, 0)).toBeNull();
  expect(response.at(2 * Math.PI * 0.2, 0)).toBeNull();
  const answerAt = (frequency: number) => response.at(2 * Math.PI * frequency, 0)!;
  for (const frequency of [0.5, 1, 2, 4]) {
    const { gain, factor, phase, reach } = answerAt(frequency);
    const lag = 2 * Math.PI * frequency * 0.05;
    const off = Math.abs(Math.log(gain / (EFFECTIVENESS / (1 + lag ** 2))));
    expect(off).toBeLessThan(Math.log(factor));
    expect(Math.abs(phase + 2 * Math.atan(lag) + 2 * Math.PI * frequency * 0.025)).toBeLessThan(reach);
  }
  // Where a lag and a delay no longer stand for two lags, the answer is known too badly to be used.
  expect(answerAt(14).reach).toBeGreaterThan(1);
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
