import type { ControlAxes } from "./control-axes.ts";

/** What to do where the motors cannot give all that the axes ask. */
export type Allocation = "clip" | "roll-pitch-priority";

/**
 * Turns collective and axis outputs into thrust shares, floor..1 per motor.
 *
 * `clip` cuts every motor off at its limits and lets the axes mix. `roll-pitch-priority` gives roll and pitch first
 * (shrunk together only where they alone need more than the whole range), moves the collective so that they fit,
 * and gives yaw what is left.
 *
 * @param output roll, pitch, yaw
 * @param share result, one per motor
 * @returns whether anything had to give way
 */
export function allocate(
  axes: ControlAxes,
  method: Allocation,
  collective: number,
  output: Float64Array,
  floor: number,
  share: Float64Array,
): boolean {
  const { mix, lift } = axes;
  const roll = output[0]!;
  const pitch = output[1]!;
  const yaw = output[2]!;
  const count = share.length;
  if (method === "clip") {
    let clipped = false;
    for (let i = 0; i < count; i++) {
      const asked = lift[i]! * collective + mix[3 * i]! * roll + mix[3 * i + 1]! * pitch + mix[3 * i + 2]! * yaw;
      share[i] = Math.max(floor, Math.min(1, asked));
      if (share[i] !== asked) clipped = true;
    }
    return clipped;
  }
  let low = 0;
  let high = 0;
  for (let i = 0; i < count; i++) {
    const tilt = mix[3 * i]! * roll + mix[3 * i + 1]! * pitch;
    share[i] = tilt;
    if (tilt < low) low = tilt;
    if (tilt > high) high = tilt;
  }
  const shrink = high - low > 1 - floor ? (1 - floor) / (high - low) : 1;
  let up = 0;
  let down = 1;
  for (let i = 0; i < count; i++) {
    share[i] = shrink * share[i]! + lift[i]! * collective;
    up = Math.max(up, floor - share[i]!);
    down = Math.min(down, 1 - share[i]!);
  }
  const shift = up > 0 ? up : Math.min(0, down);
  let turn = 1;
  for (let i = 0; i < count; i++) {
    const held = Math.min(1, Math.max(floor, share[i]! + shift));
    share[i] = held;
    const extra = mix[3 * i + 2]! * yaw;
    if (extra > 0) turn = Math.min(turn, (1 - held) / extra);
    else if (extra < 0) turn = Math.min(turn, (floor - held) / extra);
  }
  if (turn < 0) turn = 0;
  for (let i = 0; i < count; i++) share[i] = share[i]! + turn * mix[3 * i + 2]! * yaw;
  return shrink < 1 || shift !== 0 || turn < 1;
}
