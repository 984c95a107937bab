import { studentTQuantile } from "../../signal/index.ts";
import type { View } from "./command-view.ts";
import { along, square } from "./projection.ts";
import type { Step } from "./step-at.ts";
import { statistics, WINDOWS } from "./windows.ts";

/** How far the commands wander from window to window where no motor lost anything. */
export interface Wander {
  readonly deviation: number;
  readonly degreesOfFreedom: number;
}

/**
 * Gusts outlast the windows, so the scatter within a window does not tell how far apart two windows are by chance.
 * The same comparison at all places that no step touches does: its root mean square, over all motors' patterns.
 */
export function wanderOf({ thrusts, count, patterns, isWithoutYaw }: View, steps: readonly number[]): Wander | null {
  const { before, after, gap } = WINDOWS;
  const whole = before + gap + after;
  let [squares, places] = [0, 0];
  for (let cell = before; cell + gap + after <= count; cell++) {
    if (steps.some((step) => Math.abs(step - cell) < whole)) continue;
    const step = thrusts.map(
      (thrust) =>
        statistics(thrust, cell + gap, cell + gap + after).mean - statistics(thrust, cell - before, cell).mean,
    );
    places++;
    for (const pattern of patterns) squares += (along(pattern, step) / square(pattern)) ** 2 / patterns.length;
  }
  if (places === 0) return null;
  const ways = Math.min(isWithoutYaw ? 3 : 4, patterns.length);
  // Lift, roll, pitch and, where it is looked at, yaw wander by themselves; places nearer than a window's whole length share their data.
  const degreesOfFreedom = Math.max(1, Math.round(places / whole)) * ways;
  return { deviation: Math.sqrt(squares / places), degreesOfFreedom };
}

/** The 95 % interval of a step's deficit, as wide as its own scatter or the wander asks for, whichever is more. */
export function widenedBy(wander: Wander | null, { deficit, asked, error }: Step): Pick<Step, "low" | "high"> {
  const half =
    wander !== null && wander.deviation > error
      ? studentTQuantile(0.975, wander.degreesOfFreedom) * wander.deviation
      : 1.96 * error;
  return { low: Math.max(0, deficit - half / asked), high: Math.min(1, deficit + half / asked) };
}
