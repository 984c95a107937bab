/** An angle in rad as the same direction within half a turn of 0. */
export const wrapAngle = (angle: number): number =>
  Math.abs(angle) <= Math.PI ? angle : Math.atan2(Math.sin(angle), Math.cos(angle));
