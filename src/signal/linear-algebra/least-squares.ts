import { requireFinite } from "../checks.ts";
import { ArgumentError, SignalTooShortError } from "../errors.ts";
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

/**
 * Linear least squares by Householder reflections.
 * @param design one row for each observation, one column for each coefficient
 * @param observations one for each row
 * @throws SingularMatrixError if the columns are not independent; SignalTooShortError if there are too few rows
 * @see Golub & Van Loan, Matrix Computations, section 5.3
 */
export function leastSquares(design: Matrix, observations: Float64Array): LeastSquaresFit {
  const { rows, columns } = design;
  if (observations.length !== rows)
    throw new ArgumentError("observations", observations.length, `one for each row (${rows})`);
  if (rows < columns) throw new SignalTooShortError("observations", rows, columns, "fit fewer coefficients");
  requireFinite(design.data, "design");
  requireFinite(observations, "observations");
  const r = design.data.slice();
  const target = observations.slice();
  triangularise(r, target, rows, columns);
  const inverse = invertTriangle(r, columns);
  const coefficients = new Float64Array(columns);
  for (let i = 0; i < columns; i++) {
    for (let j = i; j < columns; j++) coefficients[i] = coefficients[i]! + inverse[i * columns + j]! * target[j]!;
  }
  const residuals = observations.map((value, i) => {
    let fitted = 0;
    for (let j = 0; j < columns; j++) fitted += design.data[i * columns + j]! * coefficients[j]!;
    return value - fitted;
  });
  const degreesOfFreedom = rows - columns;
  const squares = residuals.reduce((sum, value) => sum + value * value, 0);
  const residualVariance = degreesOfFreedom > 0 ? squares / degreesOfFreedom : Number.NaN;
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
export function leastSquaresOrNull(design: Matrix, observations: Float64Array): LeastSquaresFit | null {
  try {
    return leastSquares(design, observations);
  } catch (cause) {
    if (cause instanceof SingularMatrixError) return null;
    throw cause;
  }
}

/** Reflects the columns of `r` one by one onto the axes, and the target with them. */
function triangularise(r: Float64Array, target: Float64Array, rows: number, columns: number): void {
  for (let k = 0; k < columns; k++) {
    let squares = 0;
    for (let i = k; i < rows; i++) squares += r[i * columns + k]! ** 2;
    if (squares === 0) continue;
    const norm = Math.sqrt(squares);
    const alpha = r[k * columns + k]! > 0 ? -norm : norm;
    const head = r[k * columns + k]! - alpha;
    r[k * columns + k] = head;
    const beta = -1 / (alpha * head);
    for (let j = k + 1; j <= columns; j++) {
      let sum = 0;
      for (let i = k; i < rows; i++) sum += r[i * columns + k]! * (j < columns ? r[i * columns + j]! : target[i]!);
      sum *= beta;
      for (let i = k; i < rows; i++) {
        const change = sum * r[i * columns + k]!;
        if (j < columns) r[i * columns + j] = r[i * columns + j]! - change;
        else target[i] = target[i]! - change;
      }
    }
    r[k * columns + k] = alpha;
  }
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
