import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { readAircraft } from "../../src/aircraft/index.ts";
import { compareTrims, thrustImbalance } from "../../src/detect/index.ts";
import { buildFlight, type Flight } from "../../src/flight/index.ts";
import { loadLog } from "../../src/log/index.ts";
import { BUILT_IN_AIRCRAFT, type FaultInput } from "../../src/simulate/index.ts";
import { realFlights } from "../support/index.ts";
import { simulatedFlight } from "./simulated-flight.ts";

function hover(seed: number, faults: FaultInput[] = [], mass?: number): Flight {
  const aircraft = BUILT_IN_AIRCRAFT["small-quad"]!;
  return simulatedFlight({
    name: "hover",
    seed,
    aircraft,
    ...(mass !== undefined && { body: { mass } }),
    mission: [
      { do: "aloft", height: 20 },
      { do: "hover", seconds: 40 },
    ],
    faults,
    log: { rate: 50 },
  }).flight;
}

describe("thrustImbalance of simulated hovers", () => {
  const good = hover(1);

  test("an aircraft in order gives no finding", () => {
    expect(thrustImbalance.detect(good)).toEqual([]);
    expect(thrustImbalance.detect(hover(2), good)).toEqual([]);
  });

  test("a motor that lost a tenth of its thrust is named, and its loss measured within a percent", () => {
    const [found] = thrustImbalance.detect(hover(3, [{ kind: "weak-motor", motor: 2, loss: 0.1 }]), good);
    expect(found).toMatchObject({ pattern: "single-motor", motor: 2, isAgainstBaseline: true });
    expect(found!.measures.loss!.value).toBeCloseTo(0.1, 2);
    expect(found!.perMotor.excess![1]!.low).toBeGreaterThan(0.05);
  });

  test("a centre of gravity 9 mm forward and 5 mm right is measured within a millimetre", () => {
    const [found] = thrustImbalance.detect(hover(4, [{ kind: "cg-offset", x: 0.009, y: 0.005 }]));
    expect(found!.pattern).toBe("centre-of-gravity");
    expect(found!.measures["cg-forward"]!.value).toBeCloseTo(0.009, 3);
    expect(found!.measures["cg-right"]!.value).toBeCloseTo(0.005, 3);
  });

  test("a motor tilted by a degree is a spin pair whose tilt interval holds it", () => {
    const [found] = thrustImbalance.detect(hover(5, [{ kind: "motor-tilt", motor: 1, degrees: 1 }]));
    expect(found!.pattern).toBe("spin-pair");
    const { value, low, high } = found!.measures.tilt!;
    const degree = Math.PI / 180;
    expect(Math.abs(value - degree)).toBeLessThan(0.3 * degree);
    expect(low).toBeLessThan(degree);
    expect(high).toBeGreaterThan(degree);
  });

  test("what grows with speed is told apart from the balance in hover", () => {
    const { flight } = simulatedFlight({
      name: "legs",
      seed: 6,
      aircraft: BUILT_IN_AIRCRAFT["small-quad"]!,
      mission: [
        { do: "aloft", height: 20 },
        { do: "hover", seconds: 20 },
        { do: "legs", speeds: [4, 8], seconds: 12 },
        { do: "hover", seconds: 5 },
      ],
      faults: [
        { kind: "airspeed-moment", axis: "pitch", size: -0.002 },
        { kind: "weak-motor", motor: 1, loss: 0.12 },
      ],
      log: { rate: 50 },
    });
    const [found] = thrustImbalance.detect(flight);
    expect(found!.condition.kind).toBe("hover");
    // 0.002 N m per (m/s)^2 nose down at 8 m/s over a weight of 14.7 N: the load moves 8.7 mm to the front motors.
    expect(found!.measures["speed-shift-forward"]!.value).toBeCloseTo(0.0087, 2);
    expect(found!.measures["speed-shift-forward"]!.low).toBeGreaterThan(0.005);
  });

  test("flights whose motors carry loads a third apart are not compared, and it says so", () => {
    expect(compareTrims(hover(7, [], 2.2), good)).toMatchObject({ kind: "refused", reason: "load-differs" });
    expect(thrustImbalance.detect(hover(7, [], 2.2), good)).toEqual([]);
  });

  test("without an aircraft file it asks for one", () => {
    expect(thrustImbalance.missing({ ...good, aircraft: null })).toEqual(["aircraft"]);
  });
});

describe.skipIf(realFlights === null)("thrustImbalance of real flights", () => {
  const folder = join(realFlights ?? "", "propellers");
  const load = async (name: string) =>
    buildFlight(
      await loadLog(join(folder, `motors-e9-${name}.csv.gz`), { channels: join(folder, "motors.channels.yaml") }),
      await readAircraft(join(folder, "nano.aircraft.yaml")),
    );

  test("undamaged flights of one build do not differ", async () => {
    const flights = await Promise.all([1, 2, 3].map((k) => load(`undamaged-${k}`)));
    for (const flight of flights)
      for (const baseline of flights) expect(thrustImbalance.detect(flight, baseline)).toEqual([]);
  });

  test("the undamaged rig's own spin bias of 6 to 7 % is found without a baseline", async () => {
    const [found] = thrustImbalance.detect(await load("undamaged-1"));
    expect(found!.pattern).toBe("spin-pair");
    expect(found!.measures["spin-bias"]!.value).toBeCloseTo(0.066, 2);
  });

  test.each([
    "cut-m3-1.5mm-1.5mm-44mm-1",
    "cut-m3-2mm-1.5mm-43.5mm-1",
    "cut-m3-2mm-2mm-43mm-1",
    "cut-m3-3mm-2",
    "add-weight-w1-near-m3-1",
    "add-weight-w3-near-m3-1",
  ])("%s names motor 3 first", async (name) => {
    const [found] = thrustImbalance.detect(await load(name), await load("undamaged-1"));
    expect(found!.motors[0]).toBe(3);
  });
});
