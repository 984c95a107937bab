import { expect, test } from "vitest";
import { axisLoops } from "../../src/detect/axis-loop.ts";
import { rebuildIntegrator } from "../../src/detect/rebuild-integrator.ts";
import { randomGenerator } from "../../src/signal/index.ts";
import { evenly, fastFlight } from "./fast-flight.ts";

// A rate loop that acts on its error alone, with noise on the rate that no loop of 200 Hz would see.
const random = randomGenerator(5);
const time = evenly(1000);
const error = time.map((now) => 0.2 * Math.sin(2 * Math.PI * 0.7 * now) + 0.05 * random.gaussian());
const errorAt = (now: number) => error[Math.round(now * 1000)]!;
/** us for each rad/s, small beside the command's range */
const GAIN = 40;
const right = (now: number, hover: number) => hover - GAIN * errorAt(now);
const left = (now: number, hover: number) => hover + GAIN * errorAt(now);
const flight = fastFlight(time, {
  "rate.roll.setpoint": () => 0,
  "rate.roll.measured": (now) => -errorAt(now),
  "motor.1.command": left,
  "motor.2.command": right,
  "motor.3.command": right,
  "motor.4.command": left,
});

test("all signals of a fast loop are averaged alike: no integral term is made of noise", () => {
  const [loop] = axisLoops(flight);
  expect(loop!.axis).toBe("roll");
  const inAir = flight.airborne.reduce((sum, { start, end }) => sum + Math.min(end, 20) - start, 0);
  expect(loop!.time.length).toBeCloseTo(200 * inAir, -2);
  const { gains, explained } = rebuildIntegrator({ ...loop!, demand: loop!.moment!, isCut: loop!.isLimited }, null)!;
  expect(explained).toBeGreaterThan(0.99);
  // Ten seconds and more of integral action would be needed to say as much as the proportional one.
  expect(Math.abs(gains.integral.value)).toBeLessThan(0.01 * Math.abs(gains.proportional.value));
});

test("where a pause of one channel puts the loop into other blocks than the motors, its moment is still that of its rows", () => {
  const name = "rate.roll.setpoint";
  const setpoint = flight.log.channels.get(name)!;
  const paused = { ...setpoint, gaps: [{ start: 10.0022, end: 10.1031 }] };
  const log = { ...flight.log, channels: new Map([...flight.log.channels, [name, paused]]) };
  const [loop] = axisLoops({ ...flight, log });
  expect(loop!.stretches).toHaveLength(2);
  const { gains, explained } = rebuildIntegrator({ ...loop!, demand: loop!.moment!, isCut: loop!.isLimited }, null)!;
  const [whole] = axisLoops(flight);
  const usual = rebuildIntegrator({ ...whole!, demand: whole!.moment!, isCut: whole!.isLimited }, null)!;
  expect(explained).toBeGreaterThan(0.99);
  expect(gains.proportional.value).toBeCloseTo(usual.gains.proportional.value, 2);
});

test("loops on clocks of their own have each the limits of its own moments", () => {
  const atCeiling = (now: number) => now >= 12 && now < 12.5;
  const made = fastFlight(time, {
    "rate.roll.setpoint": () => 0,
    "rate.roll.measured": (now) => -errorAt(now),
    "rate.pitch.setpoint": () => 0,
    "rate.pitch.measured": (now) => -errorAt(now),
    "motor.1.command": (now, hover) => (atCeiling(now) ? flight.aircraft!.command.max : left(now, hover)),
    "motor.2.command": right,
    "motor.3.command": right,
    "motor.4.command": left,
  });
  const name = "rate.roll.setpoint";
  const paused = { ...made.log.channels.get(name)!, gaps: [{ start: 8.0022, end: 9.0022 }] };
  const loops = axisLoops({ ...made, log: { ...made.log, channels: new Map([...made.log.channels, [name, paused]]) } });
  expect(loops.map(({ axis }) => axis)).toEqual(["roll", "pitch"]);
  expect(loops[0]!.time.length).toBeLessThan(loops[1]!.time.length);
  for (const loop of loops) {
    const limited = loop.time.filter((_, k) => loop.isLimited[k] === 1);
    expect(limited[0]).toBeCloseTo(12, 2);
    expect(limited.at(-1)).toBeCloseTo(12.5, 2);
  }
});
