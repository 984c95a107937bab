/** rad, one standard deviation of a motor's tilt where an arm or a mount has turned: a degree or two (common practice) */
export const USUAL_TILT = (1.5 * Math.PI) / 180;
