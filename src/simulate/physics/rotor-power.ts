/** What a rotor needs besides its thrust curve. */
export interface RotorSettings {
  /** m */
  readonly radius: number;
  /** ideal over real power in hover (figure of merit) */
  readonly merit: number;
  /** rad/s at full command and nominal voltage */
  readonly speed: number;
  /** N at full speed, what a sound rotor's residual imbalance pulls with */
  readonly imbalance: number;
}

/**
 * Shaft power of one rotor from momentum theory: induced, climb and profile power.
 * In hover it is thrust^1.5 / sqrt(2 density area) / merit; in forward flight the induced speed falls (Glauert),
 * the profile part stays, and moving air through the disc along its axis costs thrust times that speed.
 *
 * @param thrust N
 * @param across m/s, airspeed in the plane of the disc
 * @param through m/s, airspeed along the rotor's axis, positive where the rotor moves towards its thrust
 * @returns W, never below the profile part
 * @see Leishman 2006, Principles of Helicopter Aerodynamics, 2nd ed., ch. 2
 */
export function rotorPower(thrust: number, rotor: RotorSettings, density: number, across: number, through: number) {
  if (thrust <= 0) return 0;
  const hover2 = thrust / (2 * density * Math.PI * rotor.radius * rotor.radius);
  const half = (across * across) / 2;
  const induced = Math.sqrt(Math.sqrt(half * half + hover2 * hover2) - half);
  const profile = thrust * Math.sqrt(hover2) * (1 / rotor.merit - 1);
  return Math.max(0, thrust * (induced + through)) + profile;
}
