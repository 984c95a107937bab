import type { Scenario } from "../scenario/scenario.ts";
import type { ControlAxes } from "./control-axes.ts";

/** The numbers of the cascade, axis by axis: roll, pitch, yaw. */
export interface Gains {
  /** output per rad/s, per rad and per rad/s^2 */
  readonly p: Float64Array;
  readonly i: Float64Array;
  readonly d: Float64Array;
  /** 1/s, attitude error to rate set point */
  readonly attitude: Float64Array;
  /** 1/s */
  readonly position: number;
  readonly velocity: number;
  readonly reset: number;
}

interface Plant {
  readonly controller: Scenario["controller"];
  readonly axes: ControlAxes;
  /** kg m^2 */
  readonly inertia: readonly [number, number, number];
  /** s, motor lag */
  readonly lag: number;
  /** Hz */
  readonly gyroLowpass: number;
}

/**
 * Gains that fly a healthy aircraft well damped, from its delays: the rate loop crosses over where all lags together
 * take about 35 degrees, each outer loop at a third of the one inside it (the usual spacing of cascaded loops).
 */
export function tuneGains({ controller, axes, inertia, lag, gyroLowpass }: Plant): Gains {
  // A second-order Butterworth low-pass delays slow signals by sqrt(2) / cut-off.
  const filter = Math.SQRT2 / (2 * Math.PI * gyroLowpass);
  const delay = lag + controller.delay + 0.5 / controller.frequency + filter;
  const fast = 0.6 / delay;
  const crossover = [fast, fast, Math.min(fast / 2, 3)];
  const { rate, scale } = controller;
  const pick = (gain: "p" | "i" | "d", tuned: (axis: number) => number) =>
    Float64Array.from(["roll", "pitch", "yaw"] as const, (name, axis) => {
      const scaled = scale?.[gain][name] ?? 1;
      return scaled * (rate?.[gain][name] ?? tuned(axis));
    });
  const p = (axis: number) => (inertia[axis]! * crossover[axis]!) / Math.max(1e-9, axes.moment[axis]!);
  const attitude = controller.attitude;
  const outer = attitude?.pitch ?? fast / 3;
  return {
    p: pick("p", p),
    i: pick("i", (axis) => (p(axis) * crossover[axis]!) / 6),
    d: pick("d", (axis) => (axis < 2 ? 0.25 * delay * p(axis) : 0)),
    attitude: Float64Array.of(attitude?.roll ?? outer, outer, attitude?.yaw ?? crossover[2]! / 3),
    velocity: controller.velocity ?? outer / 3,
    position: controller.position ?? outer / 9,
    reset: controller.reset ?? outer / 15,
  };
}
