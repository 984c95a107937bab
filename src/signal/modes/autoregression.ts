import { requireFinite, requireWhole } from "../checks.ts";
import { ArgumentError, SignalTooShortError } from "../errors.ts";
import { type Stretches, stretchesOf } from "../spectra/segments.ts";

/** x[t] - mean = sum over k of coefficients[k - 1] (x[t - k] - mean) + e[t]. */
export interface Autoregression {
  readonly coefficients: Float64Array;
  /** Variance of e. */
  readonly innovationVariance: number;
  readonly mean: number;
  /** Samples used, over all stretches. */
  readonly samples: number;
  /** Autocovariance of the process at the lags 0 to order, as the fit has it. */
  readonly autocovariance: Float64Array;
}

export interface AutoregressionOptions {
  /** "yule-walker" (default): always stable; "burg": sharper for short records. */
  readonly method?: "yule-walker" | "burg";
}

/**
 * Autoregressive model of a noise-driven signal. Several stretches give one model; nothing is carried over a gap.
 * @param samples n uniformly spaced values, or several such stretches; the common mean is taken off
 * @param order 1 or more
 * @throws SignalTooShortError unless every stretch is longer than the order; ArgumentError for a constant signal
 * @see Yule 1927, Phil. Trans. R. Soc. A 226:267-298; Walker 1931, Proc. R. Soc. A 131:518-532; Burg 1975, PhD thesis,
 *   Stanford
 */
export function autoregression(samples: Stretches, order: number, options: AutoregressionOptions = {}): Autoregression {
  requireWhole(order, 1, "order");
  const stretches = stretchesOf(samples);
  let count = 0;
  let sum = 0;
  for (const stretch of stretches) {
    if (stretch.length <= order) throw new SignalTooShortError("samples", stretch.length, order + 1, "lower the order");
    requireFinite(stretch, "samples");
    count += stretch.length;
    for (const value of stretch) sum += value;
  }
  if (count === 0) throw new SignalTooShortError("samples", 0, order + 1);
  const mean = sum / count;
  const centred = stretches.map((stretch) => stretch.map((value) => value - mean));
  const covariance = pooledAutocovariance(centred, count, order);
  if (!(covariance[0]! > 0)) throw new ArgumentError("samples", "a constant signal", "a signal that varies");
  const reflections = options.method === "burg" ? burgReflections(centred, order) : undefined;
  return { ...levinson(covariance, order, reflections), mean, samples: count };
}

function pooledAutocovariance(stretches: readonly Float64Array[], count: number, order: number): Float64Array {
  const out = new Float64Array(order + 1);
  for (const x of stretches) {
    for (let lag = 0; lag <= order; lag++) {
      let sum = 0;
      for (let t = lag; t < x.length; t++) sum += x[t]! * x[t - lag]!;
      out[lag] = out[lag]! + sum / count;
    }
  }
  return out;
}

/** Levinson and Durbin's recursion; with reflections given it follows those, and finds the covariance they imply. */
function levinson(covariance: Float64Array, order: number, reflections?: Float64Array) {
  let coefficients = new Float64Array(order);
  const implied = covariance.slice();
  let error = covariance[0]!;
  for (let m = 0; m < order; m++) {
    let predicted = 0;
    for (let k = 0; k < m; k++) predicted += coefficients[k]! * implied[m - k]!;
    const reflection = reflections?.[m] ?? (error > 0 ? (covariance[m + 1]! - predicted) / error : 0);
    implied[m + 1] = predicted + reflection * error;
    const next = coefficients.slice();
    for (let k = 0; k < m; k++) next[k] = coefficients[k]! - reflection * coefficients[m - 1 - k]!;
    next[m] = reflection;
    coefficients = next;
    error *= 1 - reflection * reflection;
  }
  return { coefficients, innovationVariance: error, autocovariance: implied };
}

/** Burg's reflection coefficients: each the one of least forward and backward prediction error. */
function burgReflections(stretches: readonly Float64Array[], order: number): Float64Array {
  const forward = stretches.map((x) => x.slice());
  const backward = stretches.map((x) => x.slice());
  const out = new Float64Array(order);
  for (let m = 0; m < order; m++) {
    let product = 0;
    let power = 0;
    for (const [s, f] of forward.entries()) {
      const b = backward[s]!;
      for (let t = m + 1; t < f.length; t++) {
        product += f[t]! * b[t - 1]!;
        power += f[t]! ** 2 + b[t - 1]! ** 2;
      }
    }
    const reflection = power > 0 ? (2 * product) / power : 0;
    out[m] = reflection;
    for (const [s, f] of forward.entries()) {
      const b = backward[s]!;
      for (let t = f.length - 1; t > m; t--) {
        const [ahead, behind] = [f[t]!, b[t - 1]!];
        f[t] = ahead - reflection * behind;
        b[t] = behind - reflection * ahead;
      }
    }
  }
  return out;
}

/**
 * The order of least Akaike information criterion among 0 to maxOrder, by Yule-Walker.
 * @see Akaike 1974, IEEE Trans. Autom. Control 19(6):716-723
 */
export function autoregressionOrder(samples: Stretches, maxOrder: number): number {
  requireWhole(maxOrder, 1, "maxOrder");
  const { autocovariance, samples: count } = autoregression(samples, maxOrder);
  let best = 0;
  let least = count * Math.log(autocovariance[0]!);
  for (let order = 1; order <= maxOrder; order++) {
    const { innovationVariance } = levinson(autocovariance, order);
    const criterion = count * Math.log(innovationVariance) + 2 * order;
    if (criterion < least) [best, least] = [order, criterion];
  }
  return best;
}
