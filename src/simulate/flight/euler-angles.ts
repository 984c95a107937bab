/** Euler angles (yaw, then pitch, then roll; ISO 1151-2) of the attitude quaternion. */
export function eulerAngles(state: Float64Array, euler: Float64Array): void {
  const a = state[6]!;
  const b = state[7]!;
  const c = state[8]!;
  const d = state[9]!;
  euler[0] = Math.atan2(2 * (a * b + c * d), 1 - 2 * (b * b + c * c));
  euler[1] = Math.asin(Math.max(-1, Math.min(1, 2 * (a * c - d * b))));
  euler[2] = Math.atan2(2 * (a * d + b * c), 1 - 2 * (c * c + d * d));
}
