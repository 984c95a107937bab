/** A decaying oscillation e^(growth t) cos(2 pi frequency t): 1/s (below zero it decays) and Hz. */
export interface DampedMode {
  readonly growth: number;
  readonly frequency: number;
}

/**
 * Flutter margin of two modes: the last Routh determinant of their common polynomial s^4 + A3 s^3 + A2 s^2 + A1 s + A0,
 * F = A2 (A1 / A3) - (A1 / A3)^2 - A0. It is above zero while both decay and comes to zero where one begins to grow; as
 * they approach each other it falls nearly along a parabola in dynamic pressure, so that it warns while the damping
 * itself still looks well.
 *
 * @returns rad^4/s^4
 * @see Zimmerman and Weissenburger 1964, J. Aircraft 1(4):190-202
 */
export function flutterMargin(one: DampedMode, other: DampedMode): number {
  const [b, d] = [-2 * one.growth, -2 * other.growth];
  const [c, e] = [one, other].map(({ growth, frequency }) => growth ** 2 + (2 * Math.PI * frequency) ** 2) as [
    number,
    number,
  ];
  const [a3, a2, a1, a0] = [b + d, c + e + b * d, b * e + c * d, c * e];
  const ratio = a1 / a3;
  return a2 * ratio - ratio ** 2 - a0;
}
