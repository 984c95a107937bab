import { WRENCH } from "../../aircraft/index.ts";
import { firstAtOrAfter } from "../../log/clock/first-at-or-after.ts";
import { type Matrix, pseudoInverse } from "../../signal/index.ts";
import type { MotorThrusts } from "../motor-thrusts.ts";
import { along, square } from "./projection.ts";
import { CELL } from "./windows.ts";

interface Cells {
  readonly start: number;
  readonly count: number;
  /** one array a motor, mean thrust in each cell */
  readonly thrusts: readonly Float64Array[];
  /** the same as they were asked for, nothing taken out */
  readonly asked: readonly Float64Array[];
  /** yaw moment of all of them in each cell, and of a newton of each motor */
  readonly yaw: { readonly moments: Float64Array; readonly levers: Float64Array };
}

/** Commands of one stretch as a motor's loss would show in them. */
export interface View extends Cells {
  /** one a motor: the change of all commands that makes good for a newton lost there */
  readonly patterns: readonly Float64Array[];
  /** whether what turns the nose was taken out of commands and patterns */
  readonly isWithoutYaw: boolean;
}

/** The commands of one stretch (samples `from` to `to`, the last left out) as they are. */
export function wholeView(motors: MotorThrusts, from: number, to: number): View {
  return { ...cellsOf(motors, from, to), patterns: patternsOf(motors), isWithoutYaw: false };
}

/**
 * The same commands with what turns the nose taken out of them, and out of the patterns. Null where the motors cannot
 * turn the nose without lift, roll or pitch, as three cannot: what would be taken out is then part of these.
 */
export function withoutYaw({ effectiveness: { matrix: b } }: MotorThrusts, view: View): View | null {
  const inverse = pseudoInverse(b);
  const turning = Float64Array.from({ length: b.columns }, (_, i) => inverse.data[i * 4 + WRENCH.yaw]!);
  // Of a yaw moment alone the motors can make this share: all of it, unless yaw hangs on the others.
  if (along(turning, leversOf(b)) < 1 - 1e-6) return null;
  const size = square(turning);
  const share = (values: ArrayLike<number>) => along(turning, values) / size;
  const cells = Float64Array.from({ length: view.count }, (_, cell) => share(view.thrusts.map((one) => one[cell]!)));
  return {
    ...view,
    thrusts: view.thrusts.map((thrust, i) => thrust.map((value, cell) => value - cells[cell]! * turning[i]!)),
    patterns: view.patterns.map((pattern) => {
      const part = share(pattern);
      return pattern.map((value, i) => value - part * turning[i]!);
    }),
    isWithoutYaw: true,
  };
}

function cellsOf({ time, thrusts, effectiveness: { matrix: b } }: MotorThrusts, from: number, to: number): Cells {
  const start = time[from]!;
  const count = Math.max(0, Math.floor((time[to - 1]! - start) / CELL));
  const edges = Array.from({ length: count + 1 }, (_, cell) => Math.min(to, firstAtOrAfter(time, start + cell * CELL)));
  const means = thrusts.map((thrust) => {
    const mean = new Float64Array(count);
    for (let cell = 0; cell < count; cell++) {
      const first = edges[cell]!;
      const end = edges[cell + 1]!;
      let sum = 0;
      for (let i = first; i < end; i++) sum += thrust[i]!;
      mean[cell] = end > first ? sum / (end - first) : (mean[cell - 1] ?? 0);
    }
    return mean;
  });
  const levers = leversOf(b);
  const moments = Float64Array.from({ length: count }, (_, cell) =>
    along(
      levers,
      means.map((mean) => mean[cell]!),
    ),
  );
  return { start, count, thrusts: means, asked: means, yaw: { moments, levers } };
}

/** Yaw moment of a newton of each motor. */
const leversOf = ({ data, columns }: Matrix) => data.subarray(WRENCH.yaw * columns, (WRENCH.yaw + 1) * columns);

/** Change of all commands that makes good for a newton lost at each motor: columns of B+ B. */
function patternsOf({ effectiveness: { matrix: b } }: MotorThrusts): Float64Array[] {
  const inverse = pseudoInverse(b);
  return Array.from({ length: b.columns }, (_, motor) =>
    Float64Array.from({ length: b.columns }, (_, i) => {
      let sum = 0;
      for (let k = 0; k < 4; k++) sum += inverse.data[i * 4 + k]! * b.data[k * b.columns + motor]!;
      return sum;
    }),
  );
}
