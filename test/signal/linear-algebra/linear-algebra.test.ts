import { describe, expect, test } from "vitest";
import {
  conditionNumber,
  eigenvalues,
  leastSquares,
  matrix,
  multiply,
  polynomialRoots,
  pseudoInverse,
  SingularMatrixError,
  singularValueDecomposition,
  symmetricEigen,
  transpose,
} from "../../../src/signal/index.ts";
import reference from "../../reference/linear-algebra.json" with { type: "json" };
import { expectClose, expectNear, noise } from "../support.ts";

describe("agreement with SciPy (version in the reference file)", () => {
  test.each(reference.matrices)("a $rows x $columns matrix", (row) => {
    const a = matrix(row.rows, row.columns, noise(31, row.rows * row.columns));
    const { u, values, v } = singularValueDecomposition(a);
    expectClose(values, row.singularValues);
    expectClose(pseudoInverse(a).data, row.pseudoInverse.flat());
    expectNear(conditionNumber(a), row.condition);
    const k = values.length;
    const scaled = matrix(
      u.rows,
      k,
      u.data.map((x, i) => x * values[i % k]!),
    );
    expectClose(multiply(scaled, transpose(v)).data, a.data, 1e-12);
  });

  test.each(reference.squares)("eigenvalues of a $size x $size matrix", ({ size, ...expected }) => {
    const a = matrix(size, size, noise(32, size * size));
    const { re, im } = eigenvalues(a);
    const order = [...re.keys()].sort((i, j) => (Math.abs(re[i]! - re[j]!) > 1e-9 ? re[i]! - re[j]! : im[i]! - im[j]!));
    expectClose(
      order.map((i) => re[i]!),
      expected.eigenvalues.re,
      1e-11,
    );
    const imaginary = "im" in expected.eigenvalues ? expected.eigenvalues.im : re.map(() => 0);
    for (const [k, i] of order.entries()) expect(im[i]).toBeCloseTo(imaginary[k]!, 11);
    const symmetric = matrix(
      size,
      size,
      transpose(a).data.map((x, i) => x + a.data[i]!),
    );
    const { values, vectors } = symmetricEigen(symmetric);
    expectClose(values, expected.symmetricEigenvalues, 1e-12);
    const images = multiply(vectors, symmetric).data;
    expectClose(
      images,
      vectors.data.map((x, i) => x * values[Math.floor(i / size)]!),
      1e-12,
    );
  });

  test("leastSquares with its covariance", () => {
    const design = matrix(40, 3, noise(33, 120));
    const truth = [1, -2, 0.5];
    const errors = noise(34, 40);
    const y = errors.map((e, i) => truth.reduce((sum, b, j) => sum + b * design.data[3 * i + j]!, 0.1 * e));
    const fit = leastSquares(design, y);
    expectClose(fit.coefficients, reference.leastSquares.solution);
    expectClose(fit.covariance.data, reference.leastSquares.covariance);
    expectNear(fit.residualVariance * 37, reference.leastSquares.residual);
  });
});

test("eigenvalues copes with repeated ones, zeros and a rotation that never settles without a shift", () => {
  expect([...eigenvalues(matrix(3, 3)).re]).toEqual([0, 0, 0]);
  const cycle = matrix(4, 4);
  for (let i = 0; i < 4; i++) cycle.data[i * 4 + ((i + 1) % 4)] = 1;
  const { re, im } = eigenvalues(cycle);
  expect(Math.max(...re.map((x, i) => Math.abs(Math.hypot(x, im[i]!) - 1)))).toBeLessThan(1e-12);
  expect(re.reduce((sum, x) => sum + x)).toBeCloseTo(0, 12);
});

test("polynomialRoots finds 1, 2 and 3", () => {
  expectClose([...polynomialRoots(Float64Array.of(1, -6, 11, -6)).re].sort(), [1, 2, 3], 1e-12);
});

test("linear algebra refuses what has no answer", () => {
  const twice = matrix(3, 2, Float64Array.of(1, 2, 2, 4, 3, 6));
  expect(() => leastSquares(twice, Float64Array.of(1, 2, 3))).toThrow(SingularMatrixError);
  expect(() => leastSquares([], Float64Array.of(1))).toThrow(/columns/);
  expect(() => leastSquares([Float64Array.of(1, 2)], Float64Array.of(1))).toThrow(
    /observations: needs one for each row/,
  );
  expect(() => leastSquares(matrix(1, 2), Float64Array.of(1))).toThrow(/observations: needs at least 2 samples/);
  expect(() => eigenvalues(matrix(2, 3))).toThrow(/a: needs as many rows as columns/);
  expect(() => matrix(2, 2, Float64Array.of(1, 2, 3))).toThrow(/data: needs 2 x 2 values/);
  expect(conditionNumber(twice)).toBeGreaterThan(1e15);
});
