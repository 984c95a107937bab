import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { readAircraft } from "../../src/aircraft/index.ts";
import type { ComparedTrims } from "../../src/detect/balance/compare-trims.ts";
import { compareTrims, type RefusedBaseline, steadyTrims, thrustImbalance } from "../../src/detect/index.ts";
import { buildFlight, type Flight } from "../../src/flight/index.ts";
import { loadLog } from "../../src/log/index.ts";
import { BUILT_IN_AIRCRAFT, type FaultInput, type ScenarioInput } from "../../src/simulate/index.ts";
import { realFlights } from "../support/index.ts";
import { simulatedFlight } from "./simulated-flight.ts";

function hover(seed: number, faults: FaultInput[] = [], mass?: number, battery: ScenarioInput["battery"] = {}): Flight {
  const aircraft = BUILT_IN_AIRCRAFT["small-quad"]!;
  return simulatedFlight({
    name: "hover",
    seed,
    aircraft,
    ...(mass !== undefined && { body: { mass } }),
    battery,
    mission: [
      { do: "aloft", height: 20 },
      { do: "hover", seconds: 40 },
    ],
    faults,
    log: { rate: 50 },
  }).flight;
}

/** The flight as a log without rotor speeds would have it. */
const withoutSpeeds = (flight: Flight): Flight => ({
  ...flight,
  log: { ...flight.log, channels: new Map([...flight.log.channels].filter(([name]) => !name.endsWith(".speed"))) },
});

describe("thrustImbalance of simulated hovers", () => {
  const good = hover(1);

  test("trims come from rotor speeds where they are logged, and from commands where that is asked", () => {
    const [bySpeed, byCommand] = [steadyTrims(good)!, steadyTrims(good, { commandOnly: true })!];
    expect([bySpeed.from, byCommand.from]).toEqual(["speed", "command"]);
    expect(byCommand.trims[0]!.shares).not.toEqual(bySpeed.trims[0]!.shares);
  });

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

  test("the loss of a motor beside a twisted one holds the truth though the centre of gravity was off before", () => {
    // 2 mm forward is one standard deviation of what aircraft of this size bring along (1 % of 150 mm, and 1 mm).
    const before: FaultInput = { kind: "cg-offset", x: 0.002, y: 0 };
    const faulty = hover(13, [
      before,
      { kind: "weak-motor", motor: 2, loss: 0.15 },
      { kind: "motor-tilt", motor: 4, degrees: 2 },
    ]);
    for (const baseline of [null, hover(12, [before])]) {
      const [found] = thrustImbalance.detect(faulty, baseline);
      expect(found).toMatchObject({ pattern: "single-motor", motor: 2, besides: "spin-pair" });
      const { low, high } = found!.measures.loss!;
      expect(low).toBeLessThan(0.15);
      expect(high).toBeGreaterThan(0.15);
      expect(high! - low!).toBeLessThan(baseline === null ? 0.16 : 0.05);
      const tilt = found!.perMotor["tilt-by-motor"]!.find(({ motor }) => motor === 4)!;
      expect(tilt.low).toBeLessThan((2 * Math.PI) / 180);
      expect(tilt.high).toBeGreaterThan((2 * Math.PI) / 180);
    }
  });

  test("a weak motor alone is told as no twist", () => {
    const { flight } = simulatedFlight({
      name: "hover",
      seed: 16,
      aircraft: BUILT_IN_AIRCRAFT["survey-quad"]!,
      mission: [
        { do: "aloft", height: 20 },
        { do: "hover", seconds: 40 },
      ],
      faults: [{ kind: "weak-motor", motor: 2, loss: 0.1 }],
      log: { rate: 50 },
    });
    const [found] = thrustImbalance.detect(flight);
    expect(found).toMatchObject({ pattern: "single-motor", motor: 2 });
    expect(found!.measures["spin-bias"]!.low! * found!.measures["spin-bias"]!.high!).toBeGreaterThan(0);
    const { value, low, high } = found!.measures.twist!;
    expect(Math.abs(value)).toBeLessThan(0.01);
    expect(low! * high!).toBeLessThan(0);
  });

  test.each([1, -0.7])("of a motor that lost 15 %% and one tilted by %d deg each has its own size", (degrees) => {
    const tilted: FaultInput = { kind: "motor-tilt", motor: 4, degrees };
    const [alone] = thrustImbalance.detect(hover(17, [tilted]), good);
    const [both] = thrustImbalance.detect(hover(18, [{ kind: "weak-motor", motor: 2, loss: 0.15 }, tilted]), good);
    expect(alone!.pattern).toBe("spin-pair");
    expect(both).toMatchObject({ pattern: "single-motor", motor: 2, besides: "spin-pair" });
    expect(both!.measures.twist!.value).toBeCloseTo(alone!.measures["spin-bias"]!.value, 2);
    expect(Math.abs(both!.measures["spin-bias"]!.value - alone!.measures["spin-bias"]!.value)).toBeGreaterThan(0.03);
  });

  test("what an aircraft in order is twice as probable to show is left out", () => {
    // 3.5 mm over 150 mm: 2.3 % more from the front motors, within two deviations of what aircraft bring along.
    expect(thrustImbalance.detect(hover(14, [{ kind: "cg-offset", x: 0.0035, y: 0 }]))).toEqual([]);
    const [hint] = thrustImbalance.detect(hover(15, [{ kind: "weak-motor", motor: 2, loss: 0.045 }]));
    expect(hint).toMatchObject({ motor: 2, isUsual: true });
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
    // Hover at the beginning and at the end; the rests between turns and legs, of 2 to 4 s, are none.
    expect(found!.condition.spans).toHaveLength(2);
    // 0.002 N m per (m/s)^2 nose down at 8 m/s over a weight of 14.7 N: the load moves 8.7 mm to the front motors.
    expect(found!.measures["speed-shift-forward"]!.value).toBeCloseTo(0.0087, 2);
    expect(found!.measures["speed-shift-forward"]!.low).toBeGreaterThan(0.005);
  });

  test("flights whose motors carry loads a third apart are not compared, and it says so", () => {
    const heavy = hover(7, [], 2.2);
    const refused = compareTrims(heavy, good);
    expect(refused).toMatchObject({ kind: "refused", reason: "load-differs" });
    // 2.2 kg over 1.5 kg; gusts are worth a percent or two.
    expect((refused as RefusedBaseline).load!.total).toBeCloseTo(2.2 / 1.5 - 1, 1);
    expect(thrustImbalance.detect(heavy, good)).toEqual([]);
  });

  test("a tenth more to carry shows in the total, and where the aircraft files state the masses it is explained", () => {
    const loaded = hover(8, [], 1.65);
    const { load } = compareTrims(loaded, good) as ComparedTrims;
    expect(load.total).toBeCloseTo(0.1, 2);
    expect(load.unexplained).toBeCloseTo(0.1, 2);
    const stated = { ...loaded, aircraft: { ...loaded.aircraft!, mass: { value: 1.65, error: null } } };
    const explained = (compareTrims(stated, good) as ComparedTrims).load;
    expect(explained.mass).toBeCloseTo(0.1, 10);
    expect(explained.unexplained).toBeCloseTo(0, 2);
    // The finding tells both as they are, so that they can be set side by side.
    const weak = hover(19, [{ kind: "weak-motor", motor: 2, loss: 0.1 }], 1.65);
    const [found] = thrustImbalance.detect({ ...weak, aircraft: stated.aircraft }, good);
    expect(found!.measures["mass-change"]!.value).toBeCloseTo(0.1, 10);
    // A motor that lost a tenth asks for a ninth more of its quarter.
    expect(found!.measures.load!.value).toBeCloseTo(1.1 * (1 + 0.25 / 9) - 1, 2);
  });

  test("a battery at 0.9 of the voltage asks for 1 / 0.81 of the demand, and that is no load", () => {
    const fresh = hover(9, [], undefined, { full: 16, nominal: 15, empty: 13 });
    const tired = hover(9, [], undefined, { full: 14.4, nominal: 15, empty: 11.7 });
    const { load, now, before } = compareTrims(withoutSpeeds(tired), withoutSpeeds(fresh)) as ComparedTrims;
    // Thrust at a command goes with the square of voltage.
    expect(load.voltage!).toBeCloseTo(0.9, 1);
    expect(now.demand / before.demand).toBeGreaterThan(1.2);
    expect(Math.abs(load.total)).toBeLessThan(0.01);
  });

  test("a baseline of an aircraft with other motor places is refused", () => {
    const { motors } = good.aircraft!;
    const moved = {
      ...good,
      aircraft: { ...good.aircraft!, motors: motors.map((motor) => ({ ...motor, x: 1.1 * motor.x })) },
    };
    expect(compareTrims(good, moved)).toEqual({ kind: "refused", reason: "aircraft-differs" });
    const fewer = { ...good, aircraft: { ...good.aircraft!, motors: motors.slice(0, 3) } };
    expect(compareTrims(good, fewer)).toMatchObject({ kind: "refused" });
  });

  test("what wind does to the load turns with the leg and is told apart from what speed does", () => {
    const { flight } = simulatedFlight({
      name: "legs",
      seed: 10,
      aircraft: BUILT_IN_AIRCRAFT["small-quad"]!,
      air: { wind: { speed: 3, from: 0 }, gusts: 2 },
      mission: [
        { do: "aloft", height: 20 },
        { do: "hover", seconds: 12 },
        { do: "legs", speeds: [6], seconds: 12 },
      ],
      faults: [{ kind: "weak-motor", motor: 1, loss: 0.12 }],
      log: { rate: 50 },
    });
    const { measures } = thrustImbalance.detect(flight)[0]!;
    const shift = measures["wind-shift-forward"]!;
    expect(shift.low! * shift.high!).toBeGreaterThan(0);
    // Rotors flap back with the air across them: against the wind the front motors hold more, so out and back differ.
    expect(Math.abs(shift.value)).toBeGreaterThan(0.0005);
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

  test("the heavier weight hung near motor 3 again is told as a centre of gravity moved towards it", async () => {
    const [found] = thrustImbalance.detect(await load("add-weight-w3-near-m3-2"), await load("undamaged-1"));
    expect([found!.pattern, found!.besides]).toContain("centre-of-gravity");
    // Motor 3 is the rear left one.
    expect(found!.measures["cg-forward"]!.high).toBeLessThan(0);
    expect(found!.measures["cg-right"]!.high).toBeLessThan(0);
  });
});
