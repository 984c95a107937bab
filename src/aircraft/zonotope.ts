import type { ThrustRange } from "./thrusts-of.ts";

/** One face of an attainable set: `normal . point <= reach` for every point of it. */
export interface Facet {
  /** of length m, scaled so that its largest part is 1 in size */
  readonly normal: Float64Array;
  readonly reach: number;
  /** n, `normal . column` of each motor: what a newton of it pushes towards this face; exactly 0 for motors that lie in it */
  readonly push: Float64Array;
}

/** Smaller parts than this, as a share of what they are made of, are rounding. */
const ROUNDING = 1e-10;

/**
 * The faces of the set that n bounded thrusts attain through m rows of an effectiveness matrix, a zonotope. Each face
 * holds m - 1 independent columns, so every choice of m - 1 columns is tried: its normal is their cross product, and
 * the set reaches as far along a normal as every motor pushed to the better one of its limits.
 *
 * @param rows m rows of n values, m at least 2
 * @returns no face twice; empty where the columns do not span m dimensions
 * @see Durham 1993, J. Guidance Control Dyn. 16(4):717-725; Ziegler, Lectures on Polytopes, section 7.3
 */
export function facetsOf(rows: readonly Float64Array[], ranges: readonly ThrustRange[]): Facet[] {
  const count = ranges.length;
  const columns = ranges.map((_, i) => Float64Array.from(rows, (row) => row[i]!));
  const facets: Facet[] = [];
  const known = new Set<string>();
  for (const chosen of choices(count, rows.length - 1)) {
    const normal = crossProduct(chosen.map((i) => columns[i]!));
    if (normal === null) continue;
    for (const sign of [1, -1]) {
      const facing = normal.map((part) => sign * part);
      const key = facing.reduce(
        (text, part) => `${text} ${(part + 0).toFixed(8).replace("-0.00000000", "0.00000000")}`,
        "",
      );
      if (known.has(key)) continue;
      known.add(key);
      const push = Float64Array.from(columns, (column) => settled(facing, column));
      const reach = push.reduce((sum, p, i) => sum + p * (p > 0 ? ranges[i]!.high : ranges[i]!.low), 0);
      facets.push({ normal: facing, reach, push });
    }
  }
  // In too few dimensions one "face" holds every motor: the set is flat and has no inside.
  return facets.some(({ push }) => push.every((p) => p === 0)) ? [] : facets;
}

/** Every way to take `size` of the numbers 0..count-1. */
export function choices(count: number, size: number, first = 0): number[][] {
  if (size === 0) return [[]];
  return Array.from({ length: Math.max(0, count - size - first + 1) }, (_, k) => first + k).flatMap((head) =>
    choices(count, size - 1, head + 1).map((tail) => [head, ...tail]),
  );
}

/** The vector at right angles to m - 1 others in m dimensions, largest part 1 in size; null where they are dependent. */
function crossProduct(vectors: readonly Float64Array[]): Float64Array | null {
  const size = vectors.length + 1;
  // Unit vectors first, so that levers of metres and of centimetres count alike in the test of dependence.
  const units = vectors.map((vector) => {
    const length = Math.hypot(...vector);
    return vector.map((part) => (length > 0 ? part / length : 0));
  });
  const normal = Float64Array.from({ length: size }, (_, k) => {
    const minor = units.map((unit) => unit.filter((_, at) => at !== k));
    return (k % 2 === 0 ? 1 : -1) * determinant(minor);
  });
  const largest = normal.reduce((most, part) => Math.max(most, Math.abs(part)), 0);
  if (!(largest > ROUNDING)) return null;
  return normal.map((part) => (Math.abs(part) > ROUNDING * largest ? part / largest : 0));
}

/** Determinant by expansion: the matrices here are 3 x 3 at most. */
export function determinant(rows: readonly Float64Array[]): number {
  if (rows.length === 0) return 1;
  if (rows.length === 1) return rows[0]![0]!;
  return rows[0]!.reduce((sum, head, k) => {
    if (head === 0) return sum;
    const minor = rows.slice(1).map((row) => row.filter((_, at) => at !== k));
    return sum + (k % 2 === 0 ? 1 : -1) * head * determinant(minor);
  }, 0);
}

function settled(normal: Float64Array, column: Float64Array): number {
  let sum = 0;
  let size = 0;
  for (let k = 0; k < normal.length; k++) {
    sum += normal[k]! * column[k]!;
    size += Math.abs(normal[k]! * column[k]!);
  }
  return Math.abs(sum) > 1e-9 * size ? sum : 0;
}
