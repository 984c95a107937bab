import { type Effectiveness, WRENCH } from "./effectiveness.ts";
import type { ThrustRange } from "./thrusts-of.ts";
import { choices, determinant, facetsOf } from "./zonotope.ts";

/** Every moment that the motors can give, whatever the total thrust: a convex body in roll, pitch and yaw. */
export interface AttainableMoments {
  /** corners, N m: `[roll, pitch, yaw]` */
  readonly vertices: readonly Float64Array[];
  /** count of flat faces */
  readonly faces: number;
  /** (N m)^3 */
  readonly volume: number;
}

/**
 * The attainable moment set. Its volume is the sum of |determinant| over all choices of three motors' columns, each as
 * long as that motor's range; its corners lie on its faces, where the motors in the face stand at one limit or the other.
 *
 * @see Durham 1993, J. Guidance Control Dyn. 16(4):717-725; Shephard 1974, Canad. J. Math. 26:302-321 (volume)
 */
export function attainableMoments({ matrix: b }: Effectiveness, ranges: readonly ThrustRange[]): AttainableMoments {
  const count = ranges.length;
  const rows = [WRENCH.roll, WRENCH.pitch, WRENCH.yaw].map((k) => b.data.subarray(k * count, (k + 1) * count));
  const column = (i: number) => Float64Array.from(rows, (row) => row[i]!);
  const long = (i: number) => column(i).map((part) => part * (ranges[i]!.high - ranges[i]!.low));
  const volume = choices(count, 3).reduce((sum, chosen) => sum + Math.abs(determinant(chosen.map(long))), 0);
  const facets = facetsOf(rows, ranges);
  const vertices = new Map<string, Float64Array>();
  const scale = Math.max(...rows.flatMap((row) => Array.from(row, (part, i) => Math.abs(part) * ranges[i]!.high)));
  for (const { normal, push } of facets) {
    const inFace = ranges.map((_, i) => i).filter((i) => push[i] === 0);
    for (const along of inFace) {
      for (const side of [1, -1]) {
        for (const end of [1, -1]) {
          // A corner of the face: the far end of the edge parallel to one of its motors.
          const across = cross(normal, column(along)).map((part) => side * part);
          const corner = new Float64Array(3);
          for (let i = 0; i < count; i++) {
            const own = column(i);
            const lead = push[i] !== 0 ? push[i]! : settledDot(across, own) || end * dot(column(along), own);
            const thrust = lead > 0 ? ranges[i]!.high : ranges[i]!.low;
            for (let k = 0; k < 3; k++) corner[k] = corner[k]! + own[k]! * thrust;
          }
          vertices.set(Array.from(corner, (part) => Math.round((part / scale) * 1e7) + 0).join(" "), corner);
        }
      }
    }
  }
  return { vertices: [...vertices.values()], faces: facets.length, volume };
}

const dot = (a: Float64Array, b: Float64Array) => a[0]! * b[0]! + a[1]! * b[1]! + a[2]! * b[2]!;

/** The product, with what is only rounding made 0. */
function settledDot(a: Float64Array, b: Float64Array): number {
  const product = dot(a, b);
  return Math.abs(product) > 1e-9 * Math.hypot(...a) * Math.hypot(...b) ? product : 0;
}

const cross = (a: Float64Array, b: Float64Array) =>
  Float64Array.of(a[1]! * b[2]! - a[2]! * b[1]!, a[2]! * b[0]! - a[0]! * b[2]!, a[0]! * b[1]! - a[1]! * b[0]!);
