import { requireFinite } from "../checks.ts";
import type { ComplexArray } from "../complex-array.ts";
import { ArgumentError } from "../errors.ts";
import { eigenvalues } from "./eigenvalues.ts";
import { matrix } from "./matrix.ts";

/**
 * Roots of a polynomial, as eigenvalues of its companion matrix.
 * @param coefficients highest power first; the first is not 0
 * @see Golub & Van Loan, Matrix Computations, section 7.4
 */
export function polynomialRoots(coefficients: Float64Array): ComplexArray {
  requireFinite(coefficients, "coefficients");
  const lead = coefficients[0];
  if (!lead) throw new ArgumentError("coefficients[0]", lead, "a leading coefficient other than 0");
  const degree = coefficients.length - 1;
  if (degree === 0) return { re: new Float64Array(0), im: new Float64Array(0) };
  const companion = matrix(degree, degree);
  for (let k = 0; k < degree; k++) {
    companion.data[k] = -coefficients[k + 1]! / lead;
    if (k > 0) companion.data[k * degree + k - 1] = 1;
  }
  return eigenvalues(companion);
}
