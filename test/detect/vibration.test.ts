import { describe, expect, test } from "vitest";
import { rotorTones } from "../../src/detect/vibration/rotor-tone.ts";
import { vibration } from "../../src/detect/vibration.ts";
import type { Flight } from "../../src/flight/index.ts";
import type { Channel } from "../../src/log/channel.ts";
import { aliasedFrequency, randomGenerator } from "../../src/signal/index.ts";
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

/** The flight as a log without rotor speeds would have it. */
const withoutSpeeds = (flight: Flight): Flight => ({
  ...flight,
  log: { ...flight.log, channels: new Map([...flight.log.channels].filter(([name]) => !name.endsWith(".speed"))) },
});

/** Two minutes of rotors whose commands wander each by itself; what `turns` makes of motor 2's speed is in the sensor. */
function wandering(rate: number, hertz: number, wave: (angle: number) => number) {
  const random = randomGenerator(8);
  const aircraft = BUILT_IN_AIRCRAFT["small-quad"]!;
  const time = Float64Array.from({ length: 60 * rate }, (_, i) => i / rate);
  const channels = new Map<string, Channel>();
  const add = (name: string, unit: string, values: Float64Array) =>
    channels.set(name, {
      name,
      column: name,
      unit,
      series: { time, values },
      rate,
      coverage: 1,
      longestGap: 1 / rate,
      gaps: [],
      stuck: [],
    });
  const fractions = [7, 5, 11, 8].map((period, i) =>
    time.map((t) => 0.5 + 0.02 * Math.sin((2 * Math.PI * t) / period + i)),
  );
  fractions.forEach((values, i) => {
    add(
      `motor.${i + 1}.command`,
      "us",
      values.map((fraction) => 1000 + 1000 * fraction),
    );
  });
  let angle = 0;
  let reached = fractions[1]![0]!;
  const { value: lag } = aircraft.thrust.timeConstant!;
  const shaken = time.map((_, i) => {
    reached += (fractions[1]![i]! - reached) * (1 - Math.exp(-1 / rate / lag));
    angle += (2 * Math.PI * hertz * (reached / 0.5)) / rate;
    return wave(angle) + 0.05 * random.gaussian();
  });
  add("acceleration.x", "m/s^2", shaken);
  const { flight } = { flight: hover(50) };
  return { ...flight, log: { ...flight.log, channels }, airborne: [{ start: 1, end: 59 }] } satisfies Flight;
}

describe("vibration", () => {
  test("a nick that pulls with 1 N is found on its motor, once per turn", () => {
    const found = vibration.detect(hover(500, [{ kind: "damaged-blade", motor: 2, force: 1 }]));
    expect(found).toHaveLength(1);
    expect(found[0]).toMatchObject({ motor: 2, order: 1, from: "speed" });
    expect(found[0]!.measures.frequency!.value).toBeCloseTo(88, 0);
    expect(found[0]!.perMotor.tone!.map(({ motor }) => motor)).toEqual([1, 2, 3, 4]);
  });

  test("without rotor speeds the nick is found on the motor whose command it follows, and no order is claimed", () => {
    const found = vibration.detect(withoutSpeeds(hover(500, [{ kind: "damaged-blade", motor: 2, force: 1 }])));
    expect(found).toHaveLength(1);
    expect(found[0]).toMatchObject({ motor: 2, order: null, from: "command" });
    expect(found[0]!.measures.frequency!.value).toBeCloseTo(88, -0.5);
  });

  test("rotors in order give no finding, with their speeds or without", () => {
    const flight = hover(500);
    expect(vibration.detect(flight)).toEqual([]);
    expect(vibration.detect(withoutSpeeds(flight))).toEqual([]);
  });

  test("at a rate that folds the rotors' frequency nothing is claimed, and the rate that is needed is told", () => {
    const flight = hover(100, [{ kind: "damaged-blade", motor: 2, force: 1 }]);
    expect(vibration.missing(flight)).toEqual(["acceleration or rate at 200 Hz or more"]);
    expect(vibration.detect(flight)).toEqual([]);
  });

  test("a tone of 0.5 m/s^2 that follows a command is measured", () => {
    const [found] = vibration.detect(wandering(400, 90, (angle) => 0.5 * Math.cos(angle)));
    expect(found).toMatchObject({ motor: 2, channel: "acceleration.x" });
    expect(found!.measures.amplitude!.value).toBeCloseTo(0.5, 1);
  });

  test("150 Hz that sampling at 200 Hz folds to 50 Hz runs against the command and is not claimed", () => {
    // 9000 rpm once per turn is 150 Hz, which 200 samples a second show at 200 - 150 = 50 Hz.
    expect(aliasedFrequency(150, 200)).toBe(50);
    expect(vibration.detect(wandering(200, 150, (angle) => 0.5 * Math.cos(angle)))).toEqual([]);
    // The same line where it really is at 50 Hz.
    expect(vibration.detect(wandering(200, 50, (angle) => 0.5 * Math.cos(angle)))).toHaveLength(1);
  });

  test("a frame that rings at its own frequency is no rotor", () => {
    const rate = 400;
    let step = 0;
    expect(vibration.detect(wandering(rate, 90, () => 0.5 * Math.cos((2 * Math.PI * 70 * step++) / rate)))).toEqual([]);
  });

  test("waves twice per turn are measured beside those once per turn", () => {
    const rate = 500;
    const flight = wandering(rate, 60, (angle) => 0.5 * Math.cos(angle) + 0.2 * Math.cos(2 * angle));
    const channels = new Map(flight.log.channels);
    const { value: lag } = BUILT_IN_AIRCRAFT["small-quad"]!.thrust.timeConstant!;
    for (const motor of [1, 2, 3, 4]) {
      const command = channels.get(`motor.${motor}.command`)!;
      let reached = (command.series.values[0]! - 1000) / 1000;
      const values = command.series.values.map((value) => {
        reached += ((value - 1000) / 1000 - reached) * (1 - Math.exp(-1 / rate / lag));
        return (2 * Math.PI * 60 * reached) / 0.5;
      });
      const name = `motor.${motor}.speed`;
      channels.set(name, { ...command, name, unit: "rad/s", series: { time: command.series.time, values } });
    }
    const [found] = vibration.detect({ ...flight, log: { ...flight.log, channels } });
    expect(found).toMatchObject({ motor: 2, order: 1 });
    expect(found!.measures.amplitude!.value).toBeCloseTo(0.5, 1);
    expect(found!.measures["amplitude-2"]!.value).toBeCloseTo(0.2, 1);
    expect(found!.measures["amplitude-3"]).toBeUndefined();
  });

  test("without speeds and without commands it asks for the speeds; without a sensor for a sensor", () => {
    const flight = withoutSpeeds(hover(100));
    expect(vibration.missing({ ...flight, aircraft: null })).toEqual(["motor.N.speed"]);
    expect(vibration.missing(flight)).toEqual(["acceleration or rate at 200 Hz or more"]);
    expect(vibration.missing(withoutSpeeds(hover(200)))).toEqual([]);
  });
});
