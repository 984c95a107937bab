import { describe, expect, test } from "vitest";
import { loopGain, loopPole } from "../../src/simulate/control/loop-pole.ts";
import { fly } from "../../src/simulate/flight/fly.ts";
import { setUp } from "../../src/simulate/scenario/setup.ts";
import { builtInAircraft, STILL, stillHover } from "../simulate/support/flights.ts";

const none = { roll: 0, pitch: 0, yaw: 0 };
const quad = builtInAircraft("small-quad");
/** Thrust in proportion to the command, so that limits are the only thing that is not linear; half thrust in hover. */
const linearQuad = {
  ...quad,
  mass: { value: 1.5, error: null },
  command: { ...quad.command, idle: quad.command.min },
  thrust: { ...quad.thrust, exponent: 1, max: (1.5 * 9.80665) / 2, timeConstant: { value: 0.5, error: null } },
};
const ideal = { ...STILL.sensors, gyro: { noise: 0, lowpass: 490, limit: 1000 } };

describe("limit cycle of K / (s (s + 1) (s + 2)) with unit saturation", () => {
  // An integrating controller, a motor lag of 0.5 s and a body with damping = inertia make this loop. The describing
  // function of saturation predicts omega = sqrt(2) and N(A) = 6 / K (Gelb and Vander Velde 1968, ch. 2-3).
  test.each([
    [8, 1.57554],
    [10, 2.03309],
    [12, 2.47541],
    [20, 4.20376],
  ])("K = %d: amplitude %d and angular frequency 1.41421 rad/s within 5 %", (gain, amplitude) => {
    const inertia = 20;
    const moment = (4 * 0.15 * linearQuad.thrust.max) / 2;
    const arms = [
      [1, -1],
      [1, 1],
      [-1, 1],
      [-1, -1],
    ] as const;
    const aircraft = {
      ...linearQuad,
      motors: linearQuad.motors.map((motor, i) => ({ ...motor, x: 0.15 * arms[i]![0], y: 0.15 * arms[i]![1] })),
    };
    const integral = (gain * 0.5 * inertia) / moment;
    const scenario = stillHover({
      aircraft,
      seconds: 160,
      sensors: ideal,
      body: {
        inertia: { roll: inertia, pitch: inertia, yaw: 1 },
        drag: { linear: 0, heave: 10, area: 0 },
        flapping: 0,
        damping: inertia,
      },
      controller: {
        frequency: 1000,
        delay: 0,
        allocation: "clip",
        rate: { p: none, i: { roll: 0, pitch: integral, yaw: 0 }, d: none },
        attitude: none,
        position: 0,
        velocity: 0,
        reset: 0,
        limit: { roll: 100, pitch: 100, yaw: 100 },
      },
      faults: [{ kind: "kick", axis: "pitch", size: 0.5 * moment, start: 1, seconds: 0.5 }],
    });
    const { time, channels, rows } = fly(scenario).recording;
    // The integral term is what enters the saturation.
    const signal = channels.get("rate.pitch.integrator")!;
    const from = time.findIndex((t) => t > 80);
    const peaks: number[] = [];
    const crossings: number[] = [];
    let most = 0;
    for (let i = from; i < rows; i++) {
      most = Math.max(most, Math.abs(signal[i]!));
      if (signal[i - 1]! < 0 && signal[i]! >= 0) {
        const part = -signal[i - 1]! / (signal[i]! - signal[i - 1]!);
        crossings.push(time[i - 1]! + part * (time[i]! - time[i - 1]!));
        peaks.push(most);
        most = 0;
      }
    }
    const period = (crossings.at(-1)! - crossings[0]!) / (crossings.length - 1);
    const mean = peaks.slice(1).reduce((sum, value) => sum + value, 0) / (peaks.length - 1);
    expect(Math.abs((2 * Math.PI) / period / Math.SQRT2 - 1)).toBeLessThan(0.05);
    expect(Math.abs(mean / amplitude - 1)).toBeLessThan(0.05);
  });
});

describe("step of the rate loop", () => {
  // Motor lag and an integrating body make a second-order loop; overshoot = exp(-pi zeta / sqrt(1 - zeta^2)).
  test.each([
    [0.3, 0.3723],
    [0.5, 0.163],
    [0.69, 0.05004],
  ])("damping ratio %d overshoots by the share %d", (zeta, overshoot) => {
    const lag = 0.1;
    const omega = 1 / (2 * zeta * lag);
    const inertia = 0.5;
    const aircraft = {
      ...linearQuad,
      thrust: { ...linearQuad.thrust, torqueRatio: 0.3, timeConstant: { value: lag, error: null } },
    };
    const moment = (4 * 0.3 * linearQuad.thrust.max) / 2;
    const scenario = stillHover({
      aircraft,
      sensors: ideal,
      log: { rate: 500 },
      body: { inertia: { roll: 0.05, pitch: 0.05, yaw: inertia }, damping: 0, flapping: 0 },
      controller: {
        frequency: 1000,
        delay: 0,
        attitude: { roll: 3, pitch: 3, yaw: 0 },
        scale: { p: { roll: 1, pitch: 1, yaw: 1 }, i: none, d: none },
        rate: {
          p: { roll: 0.2, pitch: 0.2, yaw: (omega * omega * inertia * lag) / moment },
          i: none,
          d: none,
        },
      },
      mission: [
        { do: "aloft", height: 50 },
        { do: "hover", seconds: 1 },
        { do: "sticks", axis: "yaw", shape: "step", degrees: 5, seconds: 8 },
      ],
    });
    const { channels } = fly(scenario).recording;
    const rate = channels.get("rate.yaw.measured")!;
    const most = rate.reduce((peak, value) => Math.max(peak, value), 0);
    expect(Math.abs(most / ((5 * Math.PI) / 180) - 1 - overshoot)).toBeLessThan(0.01);
  });
});

describe("gain margin", () => {
  test.each(["survey-quad", "small-quad", "hexa"])(
    "%s: the factor at which the flown pitch loop begins to oscillate is the computed margin within 5 %",
    (name) => {
      const aircraft = builtInAircraft(name);
      const seconds = 7;
      // Far from the motors' limits.
      const size = 0.002 * setUp(stillHover({ aircraft })).vehicle.inertia[1]!;
      const scenarioAt = (factor: number) =>
        stillHover({
          aircraft,
          seconds,
          log: { rate: 200 },
          faults: [
            { kind: "kick", axis: "pitch", size, start: 0.5 },
            { kind: "rate-gain", axis: "pitch", factor },
          ],
        });
      const setup = setUp(scenarioAt(1.5));
      let [low, high] = [1, 30];
      for (let n = 0; n < 30; n++) {
        const middle = (low + high) / 2;
        if (loopPole(setup, "pitch", { factor: middle }).re > 0) high = middle;
        else low = middle;
      }
      const margin = (low + high) / 2;
      // At the margin the loop gain is -1 at the frequency of the mode.
      const { im } = loopPole(setup, "pitch", { factor: margin });
      const at = loopGain(setup, "pitch", { re: 0, im }, { factor: margin });
      expect(Math.hypot(at.re + 1, at.im)).toBeLessThan(1e-3);

      const grows = (factor: number) => {
        const { recording } = fly(scenarioAt(factor));
        const rate = recording.trueRate[1];
        const rms = (from: number, to: number) =>
          Math.sqrt(
            rate.reduce((sum, v, i) => (recording.time[i]! > from && recording.time[i]! < to ? sum + v * v : sum), 0),
          );
        return rms(4.5, 7) > rms(2, 4.5);
      };
      let [calm, wild] = [0.8 * margin, 1.25 * margin];
      expect(grows(calm)).toBe(false);
      expect(grows(wild)).toBe(true);
      for (let n = 0; n < 5; n++) {
        const middle = (calm + wild) / 2;
        if (grows(middle)) wild = middle;
        else calm = middle;
      }
      expect(Math.abs((calm + wild) / 2 / margin - 1)).toBeLessThan(0.05);
    },
  );
});
