/** Whether two clocks tick at the very same moments. */
export function sameTimes(a: Float64Array, b: Float64Array): boolean {
  if (a.length !== b.length) return false;
  for (let at = 0; at < a.length; at++) if (a[at] !== b[at]) return false;
  return true;
}
