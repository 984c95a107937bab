const lanczos = [
  0.99999999999980993, 676.5203681218851, -1259.1392167224028, 771.32342877765313, -176.61502916214059,
  12.507343278686905, -0.13857109526572012, 9.9843695780195716e-6, 1.5056327351493116e-7,
];

/** Natural logarithm of the gamma function, for x above 0. See Lanczos 1964, SIAM J. Numer. Anal. B 1:86-96. */
export function logGamma(x: number): number {
  if (x < 0.5) return Math.log(Math.PI / Math.sin(Math.PI * x)) - logGamma(1 - x);
  let sum = lanczos[0]!;
  for (let i = 1; i < lanczos.length; i++) sum += lanczos[i]! / (x - 1 + i);
  const t = x + 6.5;
  return 0.5 * Math.log(2 * Math.PI) + (x - 0.5) * Math.log(t) - t + Math.log(sum);
}

/** Second derivative of `logGamma`: the variance of the logarithm of a gamma variable of shape x. */
export function trigamma(x: number): number {
  let sum = 0;
  let at = x;
  for (; at < 12; at++) sum += 1 / (at * at);
  const inverse = 1 / at;
  const square = inverse * inverse;
  return sum + inverse * (1 + inverse / 2 + square * (1 / 6 - square * (1 / 30 - square * (1 / 42 - square / 30))));
}

/**
 * Lower and upper regularised incomplete gamma functions, P(a, x) and Q(a, x) = 1 - P, each to full relative accuracy.
 * @see Abramowitz & Stegun 1964, 6.5.29 and 6.5.31; Lentz 1976, Appl. Opt. 15:668-671
 */
export function incompleteGamma(a: number, x: number): { lower: number; upper: number } {
  if (x <= 0) return { lower: 0, upper: 1 };
  if (x === Number.POSITIVE_INFINITY) return { lower: 1, upper: 0 };
  const front = Math.exp(a * Math.log(x) - x - logGamma(a));
  if (x < a + 1) {
    let term = 1 / a;
    let sum = term;
    for (let n = 1; Math.abs(term) > Math.abs(sum) * 1e-17; n++) {
      term *= x / (a + n);
      sum += term;
    }
    return { lower: sum * front, upper: 1 - sum * front };
  }
  let b = x + 1 - a;
  let c = 1e300;
  let d = 1 / b;
  let fraction = d;
  for (let n = 1, change = 2; Math.abs(change - 1) > 1e-16 && n < 100_000; n++) {
    const an = -n * (n - a);
    b += 2;
    d = 1 / nonZero(an * d + b);
    c = nonZero(b + an / c);
    change = d * c;
    fraction *= change;
  }
  return { lower: 1 - fraction * front, upper: fraction * front };
}

/** Keeps Lentz's continued fraction from a division by zero. */
export function nonZero(value: number): number {
  return Math.abs(value) < 1e-300 ? 1e-300 : value;
}
