/** 1 where a value is at `bottom` or below it, or at `top` or above it. */
export function beyond(values: Float64Array, bottom: number, top: number): Uint8Array {
  const flags = new Uint8Array(values.length);
  markBeyond(flags, values, bottom, top);
  return flags;
}

/** Raises the flags where `beyond` would, and leaves the others as they are. */
export function markBeyond(flags: Uint8Array, values: Float64Array, bottom: number, top: number): void {
  for (let i = 0; i < flags.length; i++) if (values[i]! >= top || values[i]! <= bottom) flags[i] = 1;
}
