/** Sum of the products of two arrays, element by element. */
export function dot(x: Float64Array, y: Float64Array): number {
  // Two sums side by side: in one, each addition waits for the one before.
  let even = 0;
  let odd = 0;
  const pairs = x.length & ~1;
  for (let i = 0; i < pairs; i += 2) {
    even += x[i]! * y[i]!;
    odd += x[i + 1]! * y[i + 1]!;
  }
  return even + odd + (pairs < x.length ? x[pairs]! * y[pairs]! : 0);
}
