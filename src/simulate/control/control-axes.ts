import type { Aircraft } from "../../aircraft/index.ts";
import type { Vehicle } from "../physics/vehicle.ts";

/**
 * How the controller sees the aircraft: what each axis can do, and how an axis output becomes thrusts.
 * An output of 1 asks for the moment that the motors give when they use their whole thrust on that axis from half
 * thrust: half the sum of thrust times lever over all motors.
 */
export interface ControlAxes {
  /** N m per unit of output: roll, pitch, yaw */
  readonly moment: readonly [number, number, number];
  /** 3 per motor: thrust share per unit of roll, pitch and yaw output */
  readonly mix: Float64Array;
  /** 1 per motor: thrust share per unit of collective, 1 where all motors are alike and the layout is balanced */
  readonly lift: Float64Array;
}

/** From the aircraft file alone, as a controller is set up: faults and the true centre of gravity are unknown to it. */
export function controlAxes(aircraft: Aircraft, { maxThrust, reaction, torqueRatio }: Vehicle): ControlAxes {
  const count = aircraft.motors.length;
  const rows = [
    Array.from(maxThrust),
    aircraft.motors.map((motor, i) => -motor.y * maxThrust[i]!),
    aircraft.motors.map((motor, i) => motor.x * maxThrust[i]!),
    aircraft.motors.map((_, i) => reaction[i]! * torqueRatio * maxThrust[i]!),
  ];
  const scale = rows.map((row) => row.reduce((sum, value) => sum + Math.abs(value), 0) / 2);
  // The least thrusts that give what is asked: t = B' (B B')^-1 wanted.
  const gram = rows.map((row) => rows.map((other) => row.reduce((sum, value, i) => sum + value * other[i]!, 0)));
  const perWant = rows.map((_, k) =>
    solve(
      gram,
      rows.map((_, j) => (j === k ? scale[k]! : 0)),
    ),
  );
  const shares = (k: number, motor: number) => rows.reduce((sum, row, j) => sum + row[motor]! * perWant[k]![j]!, 0);
  const mix = new Float64Array(3 * count);
  const lift = new Float64Array(count);
  for (let i = 0; i < count; i++) {
    // Half the total thrust is a collective of one half.
    lift[i] = 2 * shares(0, i);
    for (let axis = 0; axis < 3; axis++) mix[3 * i + axis] = shares(axis + 1, i);
  }
  return { moment: [scale[1]!, scale[2]!, scale[3]!], mix, lift };
}

/** Gauss elimination with row pivoting; a row without a pivot (no yaw from three like rotors) gives zero. */
function solve(matrix: readonly number[][], right: readonly number[]): number[] {
  const n = right.length;
  const rows = matrix.map((row, i) => [...row, right[i]!]);
  const largest = Math.max(...rows.map((row, i) => Math.abs(row[i]!)));
  for (let column = 0; column < n; column++) {
    let best = column;
    for (let i = column + 1; i < n; i++) {
      if (Math.abs(rows[i]![column]!) > Math.abs(rows[best]![column]!)) best = i;
    }
    [rows[column], rows[best]] = [rows[best]!, rows[column]!];
    const pivot = rows[column]![column]!;
    if (Math.abs(pivot) < 1e-12 * largest) {
      rows[column] = rows[column]!.map((_, j) => (j === column ? 1 : 0));
      continue;
    }
    for (let i = 0; i < n; i++) {
      if (i === column) continue;
      const factor = rows[i]![column]! / pivot;
      for (let j = column; j <= n; j++) rows[i]![j] = rows[i]![j]! - factor * rows[column]![j]!;
    }
  }
  return rows.map((row, i) => row[n]! / row[i]!);
}
