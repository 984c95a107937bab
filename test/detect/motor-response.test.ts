import { expect, test } from "vitest";
import { motorResponse } from "../../src/detect/index.ts";
import { findingSchema, makeFindings } from "../../src/findings/index.ts";
import { BUILT_IN_AIRCRAFT, type ScenarioInput } from "../../src/simulate/index.ts";
import { simulatedFlight } from "./simulated-flight.ts";

const hover = (name: string, changes: Partial<ScenarioInput>) =>
  simulatedFlight({
    name: "test",
    seed: 5,
    aircraft: BUILT_IN_AIRCRAFT[name]!,
    mission: [
      { do: "aloft", height: 40 },
      { do: "hover", seconds: 18 },
    ],
    ...changes,
  }).flight;

const speeds = Array.from({ length: 8 }, (_, i) => `motor.${i + 1}.speed`);

test.each([
  ["small-quad", 3, []],
  ["small-quad", 2, speeds],
  ["hexa", 5, []],
  ["hexa", 1, speeds],
  ["coaxial-octo", 4, speeds],
])("%s: motor %i that loses 30 %% of its thrust is named within half a second", (name, motor, omit) => {
  const flight = hover(name, { faults: [{ kind: "weak-motor", motor, start: 10.3, loss: 0.3 }], log: { omit } });
  const found = motorResponse.detect(flight);
  expect(found.map((one) => [one.motor, one.sign])).toEqual([[motor, "sudden-loss"]]);
  expect(Math.abs(found[0]!.start - 10.3)).toBeLessThan(0.5);
  expect(Math.abs(found[0]!.measures.deficit!.value - 0.3)).toBeLessThan(0.05);
});

test("a motor four times as slow as the others is named by its rotor speed, with both delays", () => {
  const flight = hover("small-quad", {
    mission: [
      { do: "aloft", height: 40 },
      { do: "hover", seconds: 4 },
      { do: "sticks", axis: "roll", shape: "sweep", degrees: 8, seconds: 10 },
      { do: "sticks", axis: "pitch", shape: "sweep", degrees: 8, seconds: 10 },
    ],
    faults: [{ kind: "slow-motor", motor: 2, factor: 4 }],
    log: { every: { speeds: 1, motors: 1 } },
  });
  const slow = motorResponse.detect(flight).filter(({ sign }) => sign === "slow");
  expect(slow.map(({ motor }) => motor)).toEqual([2]);
  expect(slow[0]!.measures.delay!.value).toBeGreaterThan(2 * slow[0]!.usual!);
});

test("a rotor slower than its command explains is short from that moment on", () => {
  const flight = hover("small-quad", {});
  const speed = flight.log.channels.get("motor.3.speed")!;
  const values = speed.series.values.map((value, i) => (speed.series.time[i]! > 9 ? 0.85 : 1) * value);
  const channels = new Map(flight.log.channels).set("motor.3.speed", { ...speed, series: { ...speed.series, values } });
  const found = motorResponse.detect({ ...flight, log: { ...flight.log, channels } });
  expect(found.map(({ motor, sign }) => [motor, sign])).toEqual([[3, "short"]]);
  expect(Math.abs(found[0]!.measures.deficit!.value - 0.15)).toBeLessThan(0.02);
  expect(Math.abs(found[0]!.start - 9)).toBeLessThanOrEqual(1);
});

test("motors that follow are not named, in hover, with sticks or in a change of trim", () => {
  for (const changes of [
    {},
    { faults: [{ kind: "cg-offset" as const, x: 0.01, y: 0.01, start: 8 }] },
    { air: { gusts: 15 } },
  ]) {
    expect(motorResponse.detect(hover("small-quad", changes))).toEqual([]);
  }
});

test("a loss while the nose is being turned is named, and told to be seen without yaw; a healthy turn is no loss", () => {
  const turning = (faults: ScenarioInput["faults"]) =>
    motorResponse.detect(
      hover("survey-quad", {
        mission: [
          { do: "aloft", height: 40 },
          { do: "hover", seconds: 6 },
          { do: "legs", speeds: [5, 9], seconds: 9, heading: 40, turn: 40 },
          { do: "hover", seconds: 6 },
        ],
        faults,
      }),
    );
  expect(turning([])).toEqual([]);
  const found = turning([{ kind: "weak-motor", motor: 2, start: 32.5, loss: 0.3 }]);
  expect(found.map(({ motor, sign, isYawKnown }) => [motor, sign, isYawKnown])).toEqual([[2, "sudden-loss", false]]);
  expect(Math.abs(found[0]!.start - 32.5)).toBeLessThan(0.5);
  // Of such findings fewer are losses than loads.
  expect(found[0]!.confidence).toBeLessThan(0.5);
  const [finding] = makeFindings({ evidence: found, motorName: (motor) => `motor ${motor}`, phaseName: () => "turn" });
  expect(findingSchema.parse(finding).alternatives).toEqual(["lifted-load"]);
  expect(finding!.summary.split(". ")[0]).toMatch(/of its thrust had been lost, or a load had been lifted/);
});

test("without body rates no loss is told: a load lifted off looks the same", () => {
  const flight = hover("small-quad", { faults: [{ kind: "weak-motor", motor: 3, start: 10.3, loss: 0.3 }] });
  const channels = new Map([...flight.log.channels].filter(([name]) => !name.startsWith("rate.")));
  const found = motorResponse.detect({ ...flight, log: { ...flight.log, channels } });
  expect(found.filter(({ sign }) => sign === "sudden-loss")).toEqual([]);
});

test("a log in which neither the body's turning nor the motors' speed or current shows is not examined", () => {
  const flight = hover("small-quad", {});
  const without = (omitted: RegExp) => {
    const channels = new Map([...flight.log.channels].filter(([name]) => !omitted.test(name)));
    return motorResponse.missing({ ...flight, log: { ...flight.log, channels } });
  };
  const needed = ["rate.roll.measured, rate.pitch.measured or motor.N.speed or motor.N.current"];
  expect(without(/^$/)).toEqual([]);
  expect(without(/^rate\./)).toEqual([]);
  expect(without(/\.(speed|current)$/)).toEqual([]);
  expect(without(/^rate\.|\.(speed|current)$/)).toEqual(needed);
  // One axis does not show towards which motor the body is knocked, three rotors not how the fourth answers.
  expect(without(/^rate\.roll|^motor\.4\.speed|\.current$/)).toEqual(needed);
});
