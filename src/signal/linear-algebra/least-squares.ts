import { requireFinite, requireSameLength, requireWhole } from "../checks.ts";
import { ArgumentError, SignalTooShortError } from "../errors.ts";
import { addScaled } from "./add-scaled.ts";
import { dot } from "./dot.ts";
import { type Matrix, matrix, SingularMatrixError } from "./matrix.ts";

export interface LeastSquaresFit {
  /** One for each column. */
  readonly coefficients: Float64Array;
  /** Covariance of the coefficients, for independent errors of one variance. */
  readonly covariance: Matrix;
  /** What the fit leaves over, one for each row. */
  readonly residuals: Float64Array;
  /** Sum of squared residuals over (rows - columns); NaN if there are no more rows than columns. */
  readonly residualVariance: number;
  readonly degreesOfFreedom: number;
}

/** Rows and columns of a linear model: a matrix, or its columns. */
export type Design = Matrix | readonly Float64Array[];

/**
 * Linear least squares by Householder reflections.
 * @param design one row for each observation, one column for each coefficient; as a matrix or column by column
 * @param observations one for each row
 * @throws SingularMatrixError if the columns are not independent; SignalTooShortError if there are too few rows
 * @see Golub & Van Loan, Matrix Computations, section 5.3
 */
export function leastSquares(design: Design, observations: Float64Array): LeastSquaresFit {
  const parts = "data" in design ? columnsOf(design) : design;
  const rows = "data" in design ? design.rows : (design[0]?.length ?? 0);
  const columns = parts.length;
  requireWhole(columns, 1, "columns");
  for (const part of parts) requireSameLength(parts[0]!, part, "design");
  if (observations.length !== rows)
    throw new ArgumentError("observations", observations.length, `one for each row (${rows})`);
  if (rows < columns) throw new SignalTooShortError("observations", rows, columns, "fit fewer coefficients");
  for (const part of parts) requireFinite(part, "design");
  requireFinite(observations, "observations");
  const target = observations.slice();
  const triangle = triangularised(
    parts.map((part) => part.slice()),
    target,
  );
  const inverse = invertTriangle(triangle, columns);
  const coefficients = new Float64Array(columns);
  for (let i = 0; i < columns; i++) {
    for (let j = i; j < columns; j++) coefficients[i] = coefficients[i]! + inverse[i * columns + j]! * target[j]!;
  }
  const residuals = observations.slice();
  for (const [j, part] of parts.entries()) addScaled(residuals, -coefficients[j]!, part);
  const degreesOfFreedom = rows - columns;
  const residualVariance = degreesOfFreedom > 0 ? dot(residuals, residuals) / degreesOfFreedom : Number.NaN;
  const covariance = new Float64Array(columns * columns);
  for (let i = 0; i < columns; i++) {
    for (let j = 0; j < columns; j++) {
      let sum = 0;
      for (let k = Math.max(i, j); k < columns; k++) sum += inverse[i * columns + k]! * inverse[j * columns + k]!;
      covariance[i * columns + j] = residualVariance * sum;
    }
  }
  return {
    coefficients,
    covariance: { rows: columns, columns, data: covariance },
    residuals,
    residualVariance,
    degreesOfFreedom,
  };
}

/** `leastSquares`, or null where the columns are not independent. */
export function leastSquaresOrNull(design: Design, observations: Float64Array): LeastSquaresFit | null {
  try {
    return leastSquares(design, observations);
  } catch (cause) {
    if (cause instanceof SingularMatrixError) return null;
    throw cause;
  }
}

function columnsOf({ rows, columns, data }: Matrix): Float64Array[] {
  return Array.from({ length: columns }, (_, j) => {
    const column = new Float64Array(rows);
    for (let i = 0, at = j; i < rows; i++, at += columns) column[i] = data[at]!;
    return column;
  });
}

/** Reflects columns one by one onto the axes, in place, and the target with them; returns the upper triangle, row after row. */
function triangularised(columns: readonly Float64Array[], target: Float64Array): Float64Array {
  const count = columns.length;
  const triangle = new Float64Array(count * count);
  for (const [k, column] of columns.entries()) {
    const mirror = column.subarray(k);
    const norm = Math.sqrt(dot(mirror, mirror));
    const alpha = column[k]! > 0 ? -norm : norm;
    for (let i = 0; i < k; i++) triangle[i * count + k] = column[i]!;
    triangle[k * count + k] = alpha;
    if (norm === 0) continue;
    mirror[0] = mirror[0]! - alpha;
    const beta = -1 / (alpha * mirror[0]!);
    for (const other of [...columns.slice(k + 1), target]) {
      const below = other.subarray(k);
      addScaled(below, -beta * dot(mirror, below), mirror);
    }
  }
  return triangle;
}

/** The inverse of the upper triangle, or the statement that it has none. */
function invertTriangle(r: Float64Array, columns: number): Float64Array {
  // A column is no mixture of those before it while its own part outweighs rounding by far.
  const isIndependent = Array.from({ length: columns }, (_, k) => {
    let size = 0;
    for (let i = 0; i <= k; i++) size = Math.hypot(size, r[i * columns + k]!);
    return Math.abs(r[k * columns + k]!) > 1e-13 * size;
  });
  const rank = isIndependent.filter(Boolean).length;
  if (rank < columns) throw new SingularMatrixError("design", rank, columns);
  const inverse = new Float64Array(columns * columns);
  for (let j = 0; j < columns; j++) {
    inverse[j * columns + j] = 1 / r[j * columns + j]!;
    for (let i = j - 1; i >= 0; i--) {
      let sum = 0;
      for (let k = i + 1; k <= j; k++) sum += r[i * columns + k]! * inverse[k * columns + j]!;
      inverse[i * columns + j] = -sum / r[i * columns + i]!;
    }
  }
  return inverse;
}

/** A matrix with the given columns. */
export function matrixOfColumns(columns: readonly Float64Array[]): Matrix {
  const rows = columns[0]?.length ?? 0;
  const out = matrix(rows, columns.length);
  for (const [j, column] of columns.entries()) {
    for (let i = 0; i < rows; i++) out.data[i * columns.length + j] = column[i]!;
  }
  return out;
}
