import { describe, expect, test } from "vitest";
import { rotorTones } from "../../src/detect/rotor-tone.ts";
import { vibration } from "../../src/detect/vibration.ts";
import { randomGenerator } from "../../src/signal/index.ts";
import { BUILT_IN_AIRCRAFT, type FaultInput } from "../../src/simulate/index.ts";
import { simulatedFlight } from "./simulated-flight.ts";

const hover = (rate: number, faults: FaultInput[] = []) =>
  simulatedFlight({
    name: "hover",
    seed: 3,
    aircraft: BUILT_IN_AIRCRAFT["small-quad"]!,
    mission: [
      { do: "aloft", height: 20 },
      { do: "hover", seconds: 20 },
    ],
    faults,
    log: { rate },
  }).flight;

describe("rotorTones", () => {
  test("two rotors of the same mean speed are told apart by how their speeds wander", () => {
    const random = randomGenerator(5);
    const rate = 400;
    const time = Float64Array.from({ length: 20 * rate }, (_, i) => i / rate);
    const wander = (period: number) => time.map((t) => 2 * Math.PI * (60 + Math.sin((2 * Math.PI * t) / period)));
    const speeds = [wander(3.1), wander(2.3)].map((values) => ({ time, values }));
    let angle = 0;
    const values = time.map((_, i) => {
      angle += speeds[0]!.values[i]! / rate;
      return 0.3 * Math.cos(angle) + 0.2 * random.gaussian();
    });
    const [first, second] = rotorTones({ time, values }, speeds, 1, [{ from: 0, to: time.length }])!;
    expect(first!.amplitude).toBeCloseTo(0.3, 1);
    expect(first!.frequency).toBeCloseTo(60, 0);
    expect(second!.amplitude).toBeLessThan(0.05);
  });
});

describe("vibration", () => {
  test("a nick that pulls with 1 N is found on its motor, once per turn", () => {
    const found = vibration.detect(hover(500, [{ kind: "damaged-blade", motor: 2, force: 1 }]));
    expect(found).toHaveLength(1);
    expect(found[0]).toMatchObject({ motor: 2, order: 1 });
    expect(found[0]!.measures.frequency!.value).toBeCloseTo(88, 0);
  });

  test("rotors in order give no finding", () => {
    expect(vibration.detect(hover(500))).toEqual([]);
  });

  test("at a rate that folds the rotors' frequency nothing is claimed, and the rate that is needed is told", () => {
    const flight = hover(100, [{ kind: "damaged-blade", motor: 2, force: 1 }]);
    expect(vibration.missing(flight)).toEqual(["acceleration or rate at 200 Hz or more"]);
    expect(vibration.detect(flight)).toEqual([]);
  });
});
