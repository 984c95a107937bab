/** The stretch about a peak in which the envelope keeps above a level but for short dips. */
export function extent(envelope: Float64Array, peak: number, level: number, dip: number): { from: number; to: number } {
  let from = peak;
  for (let i = peak; i >= 0 && from - i <= dip; i--) if (envelope[i]! >= level) from = i;
  let to = peak;
  for (let i = peak; i < envelope.length && i - to <= dip; i++) if (envelope[i]! >= level) to = i;
  return { from, to: to + 1 };
}
