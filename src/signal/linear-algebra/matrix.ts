import { requireFinite, requireWhole } from "../checks.ts";
import { ArgumentError, SignalError } from "../errors.ts";

/** A real matrix, row after row. */
export interface Matrix {
  readonly rows: number;
  readonly columns: number;
  readonly data: Float64Array;
}

/** The columns of a matrix do not determine an answer: at least one is a mixture of the others. */
export class SingularMatrixError extends SignalError {
  override readonly name = "SingularMatrixError";
  constructor(
    argument: string,
    readonly rank: number,
    readonly columns: number,
  ) {
    super(argument, `needs ${columns} independent columns, has ${rank}; leave out what others already explain`);
  }
}

/**
 * A matrix of zeros, or of the given data.
 * @param data rows x columns values, row after row; kept, not copied
 */
export function matrix(rows: number, columns: number, data: Float64Array = new Float64Array(rows * columns)): Matrix {
  requireWhole(rows, 1, "rows");
  requireWhole(columns, 1, "columns");
  if (data.length !== rows * columns)
    throw new ArgumentError("data", `${data.length} values`, `${rows} x ${columns} values`);
  requireFinite(data, "data");
  return { rows, columns, data };
}

export function transpose({ rows, columns, data }: Matrix): Matrix {
  const out = new Float64Array(rows * columns);
  for (let i = 0; i < rows; i++) for (let j = 0; j < columns; j++) out[j * rows + i] = data[i * columns + j]!;
  return { rows: columns, columns: rows, data: out };
}

/** The product a b. */
export function multiply(a: Matrix, b: Matrix): Matrix {
  if (a.columns !== b.rows)
    throw new ArgumentError("b", `${b.rows} rows`, `as many rows as a has columns (${a.columns})`);
  const out = new Float64Array(a.rows * b.columns);
  for (let i = 0; i < a.rows; i++) {
    for (let k = 0; k < a.columns; k++) {
      const factor = a.data[i * a.columns + k]!;
      for (let j = 0; j < b.columns; j++) {
        out[i * b.columns + j] = out[i * b.columns + j]! + factor * b.data[k * b.columns + j]!;
      }
    }
  }
  return { rows: a.rows, columns: b.columns, data: out };
}

/** Refuses a matrix that is not square. */
export function requireSquare({ rows, columns }: Matrix, argument: string): void {
  if (rows !== columns) throw new ArgumentError(argument, `${rows} x ${columns}`, "as many rows as columns");
}
