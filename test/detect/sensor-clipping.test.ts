import { expect, test } from "vitest";
import { sensorClipping } from "../../src/detect/index.ts";
import { BUILT_IN_AIRCRAFT, type ScenarioInput } from "../../src/simulate/index.ts";
import { simulatedFlight } from "./simulated-flight.ts";

const sticks = (faults: ScenarioInput["faults"]) =>
  simulatedFlight({
    name: "test",
    seed: 6,
    aircraft: BUILT_IN_AIRCRAFT["small-quad"]!,
    mission: [
      { do: "aloft", height: 40 },
      { do: "hover", seconds: 3 },
      { do: "sticks", axis: "roll", shape: "sine", degrees: 20, from: 0.8, seconds: 8 },
    ],
    ...(faults && { faults }),
  }).flight;

test("a gyro cut off at 0.6 rad/s is found with its limit, when the rate would have been more", () => {
  const found = sensorClipping.detect(sticks([{ kind: "rate-clipping", limit: 0.6 }]));
  const [roll] = found.filter(({ channel }) => channel === "rate.roll.measured");
  expect(Math.abs(roll!.measures.limit!.value - 0.6)).toBeLessThan(0.03);
  expect(roll!.stretches.length).toBeGreaterThan(4);
  expect(roll!.start).toBeGreaterThan(2.5);
});

test("rates and accelerations that are free are not called cut off", () => {
  expect(sensorClipping.detect(sticks([]))).toEqual([]);
});
