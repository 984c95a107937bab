import type { Matrix } from "../signal/index.ts";
import type { Facet } from "./zonotope.ts";

/** What stretches of flight asked for: blocks of samples, and per block and wrench part the middle and half the width. */
export interface WrenchBoxes {
  readonly samples: number;
  readonly middle: Float64Array;
  readonly half: Float64Array;
}

/**
 * The box of wrenches of every block of flight.
 *
 * @param rows of the 4 x n control effectiveness to be counted, p of them
 * @param thrusts n arrays of m thrusts, N
 * @param samples of one block
 * @returns ceil(m / samples) x p middles and half widths, row-major
 */
export function wrenchBoxes(
  matrix: Matrix,
  rows: readonly number[],
  thrusts: readonly Float64Array[],
  samples: number,
): WrenchBoxes {
  const length = thrusts[0]?.length ?? 0;
  const blocks = Math.ceil(length / samples);
  const [middle, half] = [new Float64Array(blocks * rows.length), new Float64Array(blocks * rows.length)];
  const wrench = new Float64Array(samples);
  for (let block = 0; block < blocks; block++) {
    const from = block * samples;
    const size = Math.min(samples, length - from);
    for (const [k, row] of rows.entries()) {
      wrench.fill(0);
      for (const [i, thrust] of thrusts.entries()) {
        const lever = matrix.data[row * matrix.columns + i]!;
        for (let s = 0; s < size; s++) wrench[s] = wrench[s]! + lever * thrust[from + s]!;
      }
      let [low, high] = [wrench[0]!, wrench[0]!];
      for (let s = 1; s < size; s++) {
        if (wrench[s]! < low) low = wrench[s]!;
        if (wrench[s]! > high) high = wrench[s]!;
      }
      middle[block * rows.length + k] = (low + high) / 2;
      half[block * rows.length + k] = (high - low) / 2;
    }
  }
  return { samples, middle, half };
}

/** Rounding, as a share of the largest distance that a face can have: a face this near to the nearest is kept. */
const ROUNDING = 1e-9;

/**
 * Tells which faces can be the nearest along an axis anywhere in a block of flight. How far a face is along the axis is
 * linear in the wrench, so of two faces the one that is nearer in the middle of a box of wrenches is so in the whole
 * box, unless the difference of their slopes makes up for it within the box. No face is left out that is nearest at
 * some moment.
 *
 * @param met faces with `direction * normal[axis] > 0`
 * @returns for the box of a block, places in `met`
 */
export function facesNear(
  met: readonly Facet[],
  axis: number,
  direction: 1 | -1,
): (boxes: WrenchBoxes, block: number) => readonly number[] {
  const parts = met[0]?.normal.length ?? 0;
  // distance = reach - slope . wrench
  const reach = Float64Array.from(met, ({ reach, normal }) => reach / (direction * normal[axis]!));
  const slope = new Float64Array(met.length * parts);
  for (const [f, { normal }] of met.entries()) {
    for (let k = 0; k < parts; k++) slope[f * parts + k] = normal[k]! / (direction * normal[axis]!);
  }
  const rounding = ROUNDING * reach.reduce((most, one) => Math.max(most, Math.abs(one)), 0);
  const distance = new Float64Array(met.length);
  return ({ middle, half }, block) => {
    let first = 0;
    for (let f = 0; f < met.length; f++) {
      let there = reach[f]!;
      for (let k = 0; k < parts; k++) there -= slope[f * parts + k]! * middle[block * parts + k]!;
      distance[f] = there;
      if (there < distance[first]!) first = f;
    }
    const kept: number[] = [];
    for (let f = 0; f < met.length; f++) {
      let gain = rounding;
      for (let k = 0; k < parts; k++) {
        gain += Math.abs(slope[f * parts + k]! - slope[first * parts + k]!) * half[block * parts + k]!;
      }
      if (!(distance[f]! - distance[first]! > gain)) kept.push(f);
    }
    return kept;
  };
}
