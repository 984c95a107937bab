import type { Axis } from "../../aircraft/index.ts";
import type { Complex } from "../../signal/index.ts";
import type { Setup } from "../scenario/setup.ts";
import { controlAxes } from "./control-axes.ts";
import { DERIVATIVE_LAG } from "./controller.ts";

/** What a fault changes in the loop of an axis. */
export interface LoopChange {
  /** multiplies P, I and D of the rate loop */
  readonly factor?: number;
  /** s, added delay */
  readonly delay?: number;
  /** kg m^2, added to the body's */
  readonly inertia?: number;
  /** N m/rad, moment that turns the body further the way it is tilted already */
  readonly divergence?: number;
}

/**
 * Loop gain of an axis at complex frequency s (rad/s), the loop cut at the axis output, small motions about hover:
 * rate, attitude and, for roll and pitch, velocity and position loops through the motor lag, the delays, the gyro
 * filter and the rotation of the body. Unstable where the Nyquist curve of this goes round -1.
 */
export function loopGain(setup: Setup, axis: Axis, s: Complex, change: LoopChange = {}): Complex {
  const k = ["roll", "pitch", "yaw"].indexOf(axis);
  const { gains, vehicle, scenario } = setup;
  const { controller, sensors, aircraft, step } = scenario;
  const factor = change.factor ?? 1;
  const over = inverse(s);
  const add = (value: number, other: Complex): Complex => ({ re: value + other.re, im: other.im });
  const scaled = (value: number, other: Complex): Complex => ({ re: value * other.re, im: value * other.im });

  const cutoff = 2 * Math.PI * sensors.gyro.lowpass;
  const reduced = scaled(1 / cutoff, s);
  const filter = inverse(add(1, sum(scaled(Math.SQRT2, reduced), times(reduced, reduced))));
  const proportional = scaled(factor, add(gains.p[k]!, scaled(gains.i[k]!, over)));
  const derivative = times(scaled(factor * gains.d[k]!, s), inverse(add(1, scaled(DERIVATIVE_LAG, s))));

  let outer: Complex = { re: 1, im: 0 };
  if (axis !== "yaw") {
    const guidance = times(add(1, scaled(gains.reset, over)), add(1, scaled(gains.position, over)));
    outer = add(1, times(scaled(gains.velocity, over), guidance));
  }
  const attitude = times(scaled(gains.attitude[k]!, over), outer);
  const feedback = sum(times(proportional, sum(filter, attitude)), times(derivative, filter));

  // A value held for one period of the loop is on average half a period old; so it is for one step of the simulation.
  const delay = controller.delay + 0.5 / controller.frequency + 0.5 * step + (change.delay ?? 0);
  const late = scaled(Math.exp(-s.re * delay), { re: Math.cos(-s.im * delay), im: Math.sin(-s.im * delay) });
  const motor = inverse(add(1, scaled(vehicle.lag[0]!, s)));
  const moment = controlAxes(aircraft, vehicle).moment[k]!;
  const inertia = vehicle.inertia[k]! + (change.inertia ?? 0);
  const resistance = sum(scaled(inertia, s), scaled(-(change.divergence ?? 0), over));
  const body = scaled(moment, inverse(add(vehicle.body.damping, resistance)));
  return times(times(feedback, late), times(motor, body));
}

/**
 * The least damped oscillatory mode of an axis: the root of 1 + loop gain with the smallest damping ratio, by
 * Newton's method from many starting points.
 *
 * @returns s = growth + j angular frequency, 1/s and rad/s
 */
export function loopPole(setup: Setup, axis: Axis, change: LoopChange = {}): Complex {
  let worst: Complex = { re: -1, im: 0 };
  for (let n = 0; n < 24; n++) {
    const start = 0.7 * 1.25 ** n;
    for (const lean of [-0.3, 0.05]) {
      const root = newton((s) => sum({ re: 1, im: 0 }, loopGain(setup, axis, s, change)), {
        re: lean * start,
        im: start,
      });
      if (root !== null && isMode(root) && dampingRatio(root) < dampingRatio(worst)) worst = root;
    }
  }
  return worst;
}

/** An oscillation of the body, not one of the filters or of the delay. */
const isMode = ({ re, im }: Complex) => im > 0.5 && im < 120 && Math.abs(re) < 5 * im;

const dampingRatio = ({ re, im }: Complex) => -re / Math.hypot(re, im);

/** Factor on the rate gains that leaves the least damped mode of the axis this damping ratio; by bisection. */
export function gainFactorForDamping(setup: Setup, axis: Axis, damping: number): number {
  let low = 1;
  let high = 40;
  for (let n = 0; n < 30; n++) {
    const middle = Math.sqrt(low * high);
    if (dampingRatio(loopPole(setup, axis, { factor: middle })) > damping) low = middle;
    else high = middle;
  }
  return Math.sqrt(low * high);
}

function newton(f: (s: Complex) => Complex, start: Complex): Complex | null {
  let s = start;
  for (let n = 0; n < 40; n++) {
    const value = f(s);
    const h = 1e-6 * Math.max(1, Math.hypot(s.re, s.im));
    const beside = f({ re: s.re + h, im: s.im });
    const slope = { re: (beside.re - value.re) / h, im: (beside.im - value.im) / h };
    const step = times(value, inverse(slope));
    s = { re: s.re - step.re, im: s.im - step.im };
    if (!Number.isFinite(s.re) || Math.hypot(s.re, s.im) > 1e4) return null;
    if (Math.hypot(step.re, step.im) < 1e-9 * Math.hypot(s.re, s.im)) return s;
  }
  return null;
}

const sum = (a: Complex, b: Complex): Complex => ({ re: a.re + b.re, im: a.im + b.im });
const times = (a: Complex, b: Complex): Complex => ({ re: a.re * b.re - a.im * b.im, im: a.re * b.im + a.im * b.re });

function inverse(a: Complex): Complex {
  const size = a.re * a.re + a.im * a.im;
  return { re: a.re / size, im: -a.im / size };
}
