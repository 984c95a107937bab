import { endsOf } from "../signal/index.ts";

/** The largest size among some values, sign left out; 0 of none. */
export function largestSize(values: Float64Array): number {
  const { least, most } = endsOf(values);
  return Math.max(0, most, -least);
}
