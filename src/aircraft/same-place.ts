/** m; places of motors that differ by less are the same place measured twice */
const SAME_PLACE = 0.005;

/** Whether two places in m are one, as far as tapes and drawings agree. */
export const isSamePlace = (a: { x: number; y: number }, b: { x: number; y: number }): boolean =>
  Math.hypot(a.x - b.x, a.y - b.y) <= SAME_PLACE;
