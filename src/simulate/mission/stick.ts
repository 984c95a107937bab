import type { TaskOf } from "./mission.ts";

/**
 * A stick input, `t` s after its start: rad of tilt for roll and pitch, rad/s for yaw.
 * A step holds for the middle half; a doublet goes one way and the other, a quarter of the time each; a sweep's
 * frequency grows exponentially (each octave gets the same time) with half a second of fading at both ends.
 */
export function stickAt(task: TaskOf<"sticks">, t: number): number {
  const size = (task.degrees * Math.PI) / 180;
  const { shape, seconds, from, to } = task;
  const share = t / seconds;
  switch (shape) {
    case "step":
      return share >= 0.25 && share < 0.75 ? size : 0;
    case "doublet":
      return share >= 0.25 && share < 0.5 ? size : share >= 0.5 && share < 0.75 ? -size : 0;
    case "sine":
      return size * fade(t, seconds) * Math.sin(2 * Math.PI * from * t);
    case "sweep": {
      const growth = Math.log(to / from) / seconds;
      const phase = growth === 0 ? from * t : (from * (Math.exp(growth * t) - 1)) / growth;
      return size * fade(t, seconds) * Math.sin(2 * Math.PI * phase);
    }
  }
}

function fade(t: number, seconds: number): number {
  return Math.max(0, Math.min(1, 2 * t, 2 * (seconds - t)));
}
