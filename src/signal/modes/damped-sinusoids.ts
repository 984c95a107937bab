import { leastSquares } from "../linear-algebra/least-squares.ts";
import type { Matrix } from "../linear-algebra/matrix.ts";

/** One term e^(sigma t) (a cos(omega t) + b sin(omega t)), t in samples; omega 0 and b 0 for a plain decay. */
export interface DampedSinusoid {
  readonly sigma: number;
  readonly omega: number;
  readonly a: number;
  readonly b: number;
}

/** A sum of such terms fitted to samples. */
export interface SinusoidFit {
  readonly terms: readonly DampedSinusoid[];
  /** Covariance of sigma and omega of each term: variances and between them. */
  readonly covariances: readonly (readonly [number, number, number])[];
  readonly squares: number;
  readonly degreesOfFreedom: number;
}

/** Amplitudes of terms of known poles, by linear least squares. */
export function fitAmplitudes(samples: Float64Array, poles: readonly { sigma: number; omega: number }[]): SinusoidFit {
  const columns = poles.flatMap(({ sigma, omega }) => {
    const { cosine, sine } = basis(sigma, omega, samples.length);
    return omega > 0 ? [cosine, sine] : [cosine];
  });
  const { coefficients, residuals, degreesOfFreedom } = leastSquares(columns, samples);
  let next = 0;
  const terms = poles.map(({ sigma, omega }) => ({
    sigma,
    omega,
    a: coefficients[next++]!,
    b: omega > 0 ? coefficients[next++]! : 0,
  }));
  return {
    terms,
    covariances: [],
    squares: sumOfSquares(residuals),
    degreesOfFreedom: degreesOfFreedom - poles.length,
  };
}

/** The same fit with the covariances that it has if its noise is white: those of the linearised problem. */
export function withCovariances(samples: Float64Array, fit: SinusoidFit): SinusoidFit {
  return { ...fit, covariances: poleCovariances(fit.terms, linearised(samples, fit.terms).covariance) };
}

/**
 * Maximum-likelihood fit for white noise: Gauss-Newton steps on all parameters, halved where they do not help.
 * The covariance is that of the linearised problem, which is the Cramér-Rao bound with the noise estimated.
 */
export function refineSinusoids(samples: Float64Array, start: SinusoidFit): SinusoidFit {
  let { terms, squares } = start;
  let step = linearised(samples, terms);
  for (let iteration = 0; iteration < 30; iteration++) {
    let share = 1;
    let next = advanced(terms, step.coefficients, share);
    let nextSquares = sumOfSquares(residualsOf(samples, next));
    while (!(nextSquares <= squares) && share > 1e-4) {
      share /= 2;
      next = advanced(terms, step.coefficients, share);
      nextSquares = sumOfSquares(residualsOf(samples, next));
    }
    if (!(nextSquares <= squares)) break;
    const isSettled = squares - nextSquares <= 1e-12 * squares;
    terms = next;
    squares = nextSquares;
    step = linearised(samples, terms);
    if (isSettled) break;
  }
  return {
    terms,
    covariances: poleCovariances(terms, step.covariance),
    squares,
    degreesOfFreedom: step.degreesOfFreedom,
  };
}

function basis(sigma: number, omega: number, count: number): { cosine: Float64Array; sine: Float64Array } {
  const cosine = new Float64Array(count);
  const sine = new Float64Array(count);
  for (let t = 0; t < count; t++) {
    const size = Math.exp(sigma * t);
    cosine[t] = size * Math.cos(omega * t);
    sine[t] = size * Math.sin(omega * t);
  }
  return { cosine, sine };
}

function residualsOf(samples: Float64Array, terms: readonly DampedSinusoid[]): Float64Array {
  const out = samples.slice();
  for (const { sigma, omega, a, b } of terms) {
    const { cosine, sine } = basis(sigma, omega, samples.length);
    for (let t = 0; t < out.length; t++) out[t] = out[t]! - a * cosine[t]! - b * sine[t]!;
  }
  return out;
}

/** The best small change of all parameters: sigma, omega, a, b of each oscillation, sigma, a of each plain term. */
function linearised(samples: Float64Array, terms: readonly DampedSinusoid[]) {
  const columns = terms.flatMap(({ sigma, omega, a, b }) => {
    const { cosine, sine } = basis(sigma, omega, samples.length);
    const bySigma = cosine.map((c, t) => t * (a * c + b * sine[t]!));
    if (omega === 0) return [bySigma, cosine];
    return [bySigma, cosine.map((c, t) => t * (b * c - a * sine[t]!)), cosine, sine];
  });
  return leastSquares(columns, residualsOf(samples, terms));
}

function advanced(terms: readonly DampedSinusoid[], change: Float64Array, share: number): DampedSinusoid[] {
  let next = 0;
  const take = () => share * change[next++]!;
  return terms.map(({ sigma, omega, a, b }) =>
    omega === 0
      ? { sigma: sigma + take(), omega, a: a + take(), b }
      : { sigma: sigma + take(), omega: omega + take(), a: a + take(), b: b + take() },
  );
}

function poleCovariances(terms: readonly DampedSinusoid[], { columns, data }: Matrix): [number, number, number][] {
  let at = 0;
  return terms.map(({ omega }) => {
    const i = at;
    at += omega === 0 ? 2 : 4;
    if (omega === 0) return [data[i * columns + i]!, 0, 0];
    return [data[i * columns + i]!, data[i * columns + i + 1]!, data[(i + 1) * columns + i + 1]!];
  });
}

function sumOfSquares(values: Float64Array): number {
  return values.reduce((sum, value) => sum + value * value, 0);
}
