import { describe, expect, test } from "vitest";
import { loadLog } from "../../../src/log/index.ts";
import { channelOfWords } from "../../../src/log/matching/channel-of-words.ts";
import { wordsOf } from "../../../src/log/matching/words-of.ts";
import { csv, numbers, temporaryFolder } from "../../support/index.ts";

test.each([
  ["roll_rate_deg_s", ["roll", "rate"], ["deg/s"]],
  ["rollRate [rad/s]", ["roll", "rate"], ["rad/s"]],
  ["Pitch Angle (°)", ["pitch", "angle"], ["deg"]],
  ["t_ms", ["t"], ["ms", "m/s"]],
  ["pack_mv", ["pack"], ["mV"]],
  ["motor1.current (A)", ["motor", "1", "current"], ["A"]],
  ["airspeed_m_s", ["air", "speed"], ["ms", "m/s"]],
  ["yaw set-point", ["yaw", "setpoint"], []],
  ["accel_z [m/s^2]", ["accel", "z"], ["m/s^2"]],
  ["m", ["m"], []],
  ["", [], []],
])("the name %j is taken apart", (name, words, units) => {
  expect(wordsOf(name)).toEqual({ words, units });
});

test.each([
  ["roll rate", "rate.roll.measured"],
  ["rollRateDemand", "rate.roll.setpoint"],
  ["desired_pitch_rate", "rate.pitch.setpoint"],
  ["q", "rate.pitch.measured"],
  ["r_ref", "rate.yaw.setpoint"],
  ["gyro.x", "rate.roll.measured"],
  ["bank", "attitude.roll.measured"],
  ["nose target", "attitude.pitch.setpoint"],
  ["yaw angle", "attitude.yaw.measured"],
  ["roll rate integral", "rate.roll.integrator"],
  ["pitch torque", "rate.pitch.output"],
  ["u_yaw", "rate.yaw.output"],
  ["motor 3", "motor.3.command"],
  ["out12", "motor.12.command"],
  ["esc_4_temperature", "motor.4.temperature"],
  ["rotor2 rpm", "motor.2.speed"],
  ["motor1 current [A]", "motor.1.current"],
  ["battery voltage", "battery.voltage"],
  ["pack_a", "battery.current"],
  ["height", "altitude"],
  ["ground speed", "speed.ground"],
  ["airspeed", "speed.air"],
  ["south speed", "velocity.north"],
  ["climb rate", "velocity.down"],
  ["ve", "velocity.east"],
  ["north speed demand", "velocity.north.setpoint"],
  ["position east", "position.east"],
  ["accel z", "acceleration.z"],
  ["collective", "collective.demand"],
  ["heading", "heading"],
  ["flight mode", "mode"],
  ["time", "time"],
  ["timestamp (us)", "time"],
])("the words of %j say %s", (name, channel) => {
  const match = channelOfWords(wordsOf(name))!;
  expect(match.channel).toBe(channel);
  expect(match.confidence).toBeGreaterThanOrEqual(0.4);
});

test.each([
  "spare_7",
  "roll gain",
  "pitch error",
  "humidity",
  "satellites",
  "motor 1 fault",
  "roll pitch",
  "altitude demand",
])("the words of %j say nothing", (name) => {
  expect(channelOfWords(wordsOf(name))).toBeNull();
});

test("opposite words turn the sign", () => {
  for (const name of ["west speed", "south speed", "climb speed", "left velocity"]) {
    expect(channelOfWords(wordsOf(name))!.sign).toBe(-1);
  }
});

describe("without a map", () => {
  const folder = temporaryFolder();
  const n = 400;
  const swing = (size: number) => numbers(n, (i) => size * Math.sin(i / 20));
  const load = (name: string, columns: Record<string, ArrayLike<number | string>>) =>
    loadLog(folder.write(name, csv({ time_s: numbers(n, (i) => i / 100), ...columns })));

  test("a unit in the name is taken as it stands and needs no question", async () => {
    const log = await load("stated.csv", { "battery voltage [mV]": swing(3000) });
    expect(log.mapping.matches).toMatchObject([{ channel: "battery.voltage", unit: "mV" }]);
    expect(log.mapping.questions).toEqual([]);
  });

  test.each([
    ["roll_rate", 300, "deg/s"],
    ["roll_rate", 3, "rad/s"],
    ["roll", 40, "deg"],
    ["roll", 0.7, "rad"],
    ["battery voltage", 15800, "mV"],
    ["battery voltage", 15.8, "V"],
    ["rotor1 speed", 9000, "rpm"],
  ])("%s that reaches %d is in %s, and the user is asked", async (column, reach, unit) => {
    const log = await load(`size-${column}-${reach}.csv`, { [column]: swing(reach) });
    const [match] = log.mapping.matches;
    expect(match).toMatchObject({ column, unit });
    expect(match!.confidence).toBeLessThan(0.95);
    expect(log.mapping.questions.some(({ text }) => text.includes(column) && text.includes(unit))).toBe(true);
  });

  test("a rate named in rad/s that reaches 300 is taken in deg/s, with a question that says so", async () => {
    const log = await load("disbelieved.csv", { "roll_rate [rad/s]": swing(300) });
    expect(log.mapping.matches[0]!.unit).toBe("deg/s");
    expect(log.mapping.matches[0]!.confidence).toBeLessThan(0.7);
    expect(log.mapping.questions[0]!.text).toMatch(/in deg\/s and not in rad\/s as named .*\?$/);
  });

  test.each([
    [1000, 2000, "us", 1],
    [0, 1, "1", 1],
    [0, 100, "%", 1],
    [0, 65535, "1", 1],
  ])("motor commands from %d to %d are in %s", async (low, high, unit, scale) => {
    const wave = (lag: number) => numbers(n, (i) => low + ((high - low) * (1 + Math.sin(i / 20 + lag))) / 2);
    const log = await load(`motors-${high}.csv`, { motor1: wave(0), motor2: wave(1), motor3: wave(2) });
    expect(log.mapping.matches.map((match) => [match.channel, match.unit, match.scale])).toEqual(
      [1, 2, 3].map((motor) => [`motor.${motor}.command`, unit, scale]),
    );
  });

  test("motors counted from 0 are counted from 1, and the user is asked", async () => {
    const log = await load("zero.csv", { motor_0: swing(1), motor_1: swing(1), motor_2: swing(1) });
    expect([...log.channels.keys()]).toEqual(["motor.1.command", "motor.2.command", "motor.3.command"]);
    expect(log.mapping.questions.some(({ text }) => text.includes("counted from 1 instead of 0"))).toBe(true);
  });

  test("whole numbers too large for metres are millimetres", async () => {
    const whole = swing(900).map(Math.round);
    const log = await load("mm.csv", { height: whole, "north speed": whole });
    expect(log.mapping.matches.map(({ unit }) => unit)).toEqual(["mm", "mm/s"]);
  });

  test("gravity tells g from m/s^2", async () => {
    const log = await load("g.csv", { "accel x": swing(0.1), "accel z": numbers(n, (i) => -1 + 0.01 * Math.sin(i)) });
    expect(log.mapping.matches.map(({ unit }) => unit)).toEqual(["g", "g"]);
  });

  test("of two columns for one channel the surer one wins, and the user is asked", async () => {
    const log = await load("rivals.csv", { p: swing(1), roll_rate: swing(2) });
    expect(log.channels.get("rate.roll.measured")!.column).toBe("roll_rate");
    expect(log.mapping.questions.some(({ text }) => /"roll_rate" and not in "p"\?$/.test(text))).toBe(true);
  });

  test.each([
    [0.004, "s"],
    [4, "ms"],
    [4000, "us"],
    [4e6, "ns"],
  ])("stamps %d apart are in %s", async (step, unit) => {
    const file = folder.write(`time-${unit}.csv`, csv({ t: numbers(n, (i) => i * step), height: swing(3) }));
    const log = await loadLog(file);
    expect(log.mapping.time.unit).toBe(unit);
    expect(log.clock.rate).toBeCloseTo(250, 3);
    expect(log.mapping.questions[0]!.text).toContain("250 rows a second?");
  });

  test("every question is one sentence that ends in a question mark", async () => {
    const log = await load("questions.csv", {
      p: swing(3),
      roll: swing(1),
      height: swing(2),
      motor1: swing(1),
      u_roll: swing(1),
      lift: swing(1),
    });
    expect(log.mapping.questions.length).toBeGreaterThan(4);
    for (const { text } of log.mapping.questions) expect(text).toMatch(/^[A-Z][^?]*\?$/);
  });
});
