import { describe, expect, test } from "vitest";
import { findWindups, type Windup } from "../../src/detect/find-windups.ts";

interface Loop {
  readonly gain: number;
  readonly reset: number;
  readonly most: number;
  readonly seconds: number;
  /** response from input: the plant's time constant, infinite for an integrator */
  readonly lag: number;
  /** time constant of back-calculation; none where left out */
  readonly tracking?: number;
}

/** A proportional-integral loop about a limited actuator after a unit step, by explicit Euler at 0.5 ms. */
function step({ gain, reset, most, seconds, lag, tracking }: Loop) {
  const dt = 0.0005;
  const count = Math.round(seconds / dt);
  const time = Float64Array.from({ length: count }, (_, i) => i * dt);
  const error = new Float64Array(count);
  const integral = new Float64Array(count);
  const isLimited = new Uint8Array(count);
  let y = 0;
  let sum = 0;
  for (let i = 0; i < count; i++) {
    const e = 1 - y;
    const asked = gain * e + sum;
    const given = Math.max(-most, Math.min(most, asked));
    error[i] = e;
    integral[i] = sum;
    isLimited[i] = asked === given ? 0 : 1;
    sum += dt * ((gain / reset) * e + (tracking === undefined ? 0 : (given - asked) / tracking));
    y += dt * (lag === Number.POSITIVE_INFINITY ? given : (given - y) / lag);
  }
  return { time, error, integral, isLimited, stretches: [{ from: 0, to: count }] };
}

const found = (loop: Loop): Windup[] => findWindups(step(loop), { limit: null, scale: loop.most, calm: 0.01 });

describe("the worked proportional-integral loops", () => {
  test("an integrating process with |u| <= 0.1 winds up to 5.000, turns at 10 s and overshoots by 90 %", () => {
    const [windup] = found({ gain: 1, reset: 1, most: 0.1, seconds: 80, lag: Number.POSITIVE_INFINITY });
    expect(windup!.direction).toBe(1);
    expect(windup!.start).toBeCloseTo(0, 3);
    expect(Math.abs(windup!.peak / 5 - 1)).toBeLessThan(0.005);
    expect(Math.abs(windup!.end - 10)).toBeLessThan(0.05);
    expect(Math.abs(windup!.overshoot / 0.9002 - 1)).toBeLessThan(0.005);
  });

  test("the same loop without limits never winds up", () => {
    expect(found({ gain: 1, reset: 1, most: 1e9, seconds: 30, lag: Number.POSITIVE_INFINITY })).toEqual([]);
  });

  test("a first-order process with |u| <= 1.2 winds up to 2.567 and overshoots by 16.46 %", () => {
    const [windup] = found({ gain: 4, reset: 5, most: 1.2, seconds: 40, lag: 5 });
    expect(Math.abs(windup!.peak / 2.567 - 1)).toBeLessThan(0.01);
    expect(Math.abs(windup!.end - 8.958)).toBeLessThan(0.05);
    expect(Math.abs(windup!.overshoot / 0.1646 - 1)).toBeLessThan(0.01);
  });

  test("back-calculation leaves next to nothing to unwind", () => {
    const loop = { gain: 1, reset: 1, most: 0.1, seconds: 60, lag: Number.POSITIVE_INFINITY, tracking: 1 };
    const windups = found(loop);
    expect(Math.max(0, ...windups.map(({ overshoot }) => overshoot))).toBeLessThan(0.06);
    expect(Math.max(0, ...windups.map(({ peak }) => peak))).toBeLessThan(0.101);
  });
});

test("a steady trim is no wind-up, though a motor is at its limit and the term is full", () => {
  const count = 5000;
  const time = Float64Array.from({ length: count }, (_, i) => i / 100);
  const error = time.map((t) => 0.05 * Math.sin(7 * t));
  const integral = time.map((t) => 0.3 + 0.0005 * Math.cos(7 * t));
  const isLimited = new Uint8Array(count).fill(1);
  const stretches = [{ from: 0, to: count }];
  expect(findWindups({ time, error, integral, isLimited, stretches }, { limit: 0.3, scale: 0.3, calm: 0.02 })).toEqual(
    [],
  );
});
