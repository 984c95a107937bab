import type { Axis } from "./aircraft.ts";
import { type Effectiveness, WRENCH } from "./effectiveness.ts";
import { facesNear, wrenchBoxes } from "./faces-near.ts";
import type { ThrustRange } from "./thrusts-of.ts";
import { type Facet, facetsOf } from "./zonotope.ts";

/** Answers how much moment is left, for one layout. */
export interface MomentRoom {
  /** axes about which these motors can turn the body while total thrust stays as it is */
  readonly axes: readonly Axis[];
  /**
   * The most that the moment about an axis can grow in a direction while thrust and the other moments stay as they are
   * and every motor stays within its limits. Exact for any count of motors: with four there is one way to do it and
   * the first motor to meet a limit ends it; with more the best of all ways counts.
   *
   * @param thrusts n present thrusts within their ranges, N
   * @returns N m beyond the present moment
   */
  left(axis: Axis, direction: 1 | -1, thrusts: ArrayLike<number>): number;
  /** The same for m moments at once, cheaply: one array of m thrusts a motor in, m moments out for each way asked. */
  over(thrusts: readonly Float64Array[]): (axis: Axis, direction: 1 | -1) => Float64Array;
  /** The motor (counted from 1) that is nearest to the limit which stops any more. */
  binding(axis: Axis, direction: 1 | -1, thrusts: ArrayLike<number>): number;
}

/**
 * Prepares a layout. The largest step along one axis is a linear programme; by its dual the answer is the nearest face
 * of the attainable set in that direction, and a face is as far as its motors' slacks add up to:
 * sum of |push| x slack over the face's slope along the axis. Faces are found once, so an answer costs little.
 *
 * @see Durham 1993, J. Guidance Control Dyn. 16(4):717-725
 * @see Bertsimas and Tsitsiklis, Introduction to Linear Optimization, chapter 4 (duality)
 */
export function momentRoom({ matrix: b }: Effectiveness, ranges: readonly ThrustRange[]): MomentRoom {
  const low = Float64Array.from(ranges, (range) => range.low);
  const high = Float64Array.from(ranges, (range) => range.high);
  const row = (k: number) => b.data.subarray(k * b.columns, (k + 1) * b.columns);
  const all: Axis[] = ["roll", "pitch", "yaw"];
  // Three rotors cannot hold thrust, roll and pitch and turn as well: yaw is then left out.
  const facesOf = (axes: readonly Axis[]) =>
    facetsOf([row(WRENCH.thrust), ...axes.map((axis) => row(WRENCH[axis]))], ranges);
  const full = facesOf(all);
  const axes = full.length > 0 ? all : all.slice(0, 2);
  const faces = full.length > 0 ? full : facesOf(axes);
  const towards = new Map(
    axes.flatMap((axis, k) =>
      ([1, -1] as const).map((direction) => [`${axis} ${direction}`, facingFaces(faces, k + 1, direction)]),
    ),
  );
  const nearestFace = (axis: Axis, direction: 1 | -1, thrusts: ArrayLike<number>) => {
    const { weights, count } = towards.get(`${axis} ${direction}`)!;
    let nearest = Number.POSITIVE_INFINITY;
    let at = 0;
    for (let f = 0; f < count; f++) {
      let distance = 0;
      for (let i = 0; i < low.length; i++) {
        const weight = weights[f * low.length + i]!;
        if (weight > 0) distance += weight * (high[i]! - thrusts[i]!);
        else if (weight < 0) distance += weight * (low[i]! - thrusts[i]!);
      }
      if (distance < nearest) {
        nearest = distance;
        at = f * low.length;
      }
    }
    return { nearest, weights, at };
  };
  return {
    axes: faces.length > 0 ? axes : [],
    left: (axis, direction, thrusts) => nearestFace(axis, direction, thrusts).nearest,
    over(thrusts) {
      const rows = [WRENCH.thrust, ...axes.map((axis) => WRENCH[axis])];
      const boxes = ranges.length > rows.length ? wrenchBoxes(b, rows, thrusts, BLOCK) : null;
      return (axis, direction) => {
        const { weights, count, near } = towards.get(`${axis} ${direction}`)!;
        const all = Array.from({ length: count }, (_, f) => f);
        const nearest = new Float64Array(thrusts[0]?.length ?? 0).fill(Number.POSITIVE_INFINITY);
        const distance = new Float64Array(BLOCK);
        for (let from = 0; from < nearest.length; from += BLOCK) {
          const size = Math.min(BLOCK, nearest.length - from);
          for (const f of boxes === null ? all : near(boxes, from / BLOCK)) {
            distance.fill(0);
            for (let i = 0; i < low.length; i++) {
              const weight = weights[f * low.length + i]!;
              if (weight === 0) continue;
              const bound = weight > 0 ? high[i]! : low[i]!;
              const thrust = thrusts[i]!;
              for (let k = 0; k < size; k++) distance[k] = distance[k]! + weight * (bound - thrust[from + k]!);
            }
            for (let k = 0; k < size; k++) if (distance[k]! < nearest[from + k]!) nearest[from + k] = distance[k]!;
          }
        }
        return nearest;
      };
    },
    binding(axis, direction, thrusts) {
      const { weights, at } = nearestFace(axis, direction, thrusts);
      return bindingMotor(weights, at, ranges, thrusts);
    },
  };
}

/** Samples worked on together: few enough that most faces are out of the question, enough to make the asking cheap. */
const BLOCK = 128;

/** The faces met when a moment grows one way, with each motor's push over the face's slope that way. */
function facingFaces(faces: readonly Facet[], k: number, direction: 1 | -1) {
  const met = faces.filter(({ normal }) => direction * normal[k]! > 1e-9);
  const weights = Float64Array.from(
    met.flatMap(({ normal, push }) => [...push].map((p) => p / (direction * normal[k]!))),
  );
  return { weights, count: met.length, near: facesNear(met, k, direction) };
}

/** Of the motors that reach a limit at this face, the one with the least of its range left on that side. */
function bindingMotor(weights: Float64Array, at: number, ranges: readonly ThrustRange[], thrusts: ArrayLike<number>) {
  let least = Number.POSITIVE_INFINITY;
  let motor = 1;
  for (const [i, { low, high }] of ranges.entries()) {
    const weight = weights[at + i]!;
    if (weight === 0) continue;
    const slack = (weight > 0 ? high - thrusts[i]! : thrusts[i]! - low) / (high - low);
    if (slack < least) {
      least = slack;
      motor = i + 1;
    }
  }
  return motor;
}
