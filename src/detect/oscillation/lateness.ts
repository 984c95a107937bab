/** How motors with a first-order lag and a delay (both s) answer at omega (rad/s), without their size. */
export function lateness(omega: number, lag: number, delay: number): readonly [re: number, im: number] {
  const size = 1 / Math.hypot(1, omega * lag);
  const turn = -omega * delay - Math.atan(omega * lag);
  return [size * Math.cos(turn), size * Math.sin(turn)];
}
