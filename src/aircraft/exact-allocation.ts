import { multiply, pseudoInverse } from "../signal/index.ts";
import { type Effectiveness, wrenchOf } from "./effectiveness.ts";
import type { ThrustRange } from "./thrusts-of.ts";
import { facetsOf } from "./zonotope.ts";

/** A wrench this near, as a share of what one motor can give, is the wrench that was asked for. */
const CLOSE = 1e-7;
/** Rounds of projection; convergence is linear, slow only where the wrench lies on the border of what can be attained. */
const MOST_ROUNDS = 20_000;

/**
 * Thrusts within their ranges that give a wrench exactly. Whether there are any is told by the faces of the attainable
 * set; of all that do, the ones nearest to the middle of the ranges (by sum of squares) are found by alternating
 * projections between the box of the ranges and the plane of the wrench, with Dykstra's correction.
 *
 * @param wrench thrust, roll, pitch, yaw: N and N m
 * @returns n thrusts, N; null where no thrusts within the ranges give this wrench
 * @see Dykstra 1983, J. Am. Stat. Assoc. 78:837-842
 */
export function exactThrusts(
  effectiveness: Effectiveness,
  ranges: readonly ThrustRange[],
  wrench: ArrayLike<number>,
): Float64Array | null {
  const { matrix: b } = effectiveness;
  const rows = [0, 1, 2, 3].map((k) => b.data.subarray(k * b.columns, (k + 1) * b.columns));
  const isBeyond = facetsOf(rows, ranges).some(({ normal, reach }) => {
    const there = normal.reduce((sum, part, k) => sum + part * wrench[k]!, 0);
    return there > reach + CLOSE * Math.max(1, Math.abs(reach));
  });
  if (isBeyond) return null;
  const inverse = pseudoInverse(b);
  const ontoPlane = (thrusts: Float64Array) => {
    const short = wrenchOf(effectiveness, thrusts).map((value, k) => wrench[k]! - value);
    const step = multiply(inverse, { rows: 4, columns: 1, data: short }).data;
    return thrusts.map((value, i) => value + step[i]!);
  };
  const width = Math.max(...ranges.map(({ high, low }) => high - low));
  let onPlane = ontoPlane(Float64Array.from(ranges, ({ low, high }) => (low + high) / 2));
  let correction = new Float64Array(ranges.length);
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const wanted = onPlane.map((value, i) => value + correction[i]!);
    const inBox = wanted.map((value, i) => Math.min(ranges[i]!.high, Math.max(ranges[i]!.low, value)));
    if (inBox.every((value, i) => Math.abs(value - onPlane[i]!) < CLOSE * width)) return inBox;
    correction = wanted.map((value, i) => value - inBox[i]!);
    onPlane = ontoPlane(inBox);
  }
  return null;
}
