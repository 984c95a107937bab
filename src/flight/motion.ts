import type { Log } from "../log/log.ts";
import { type Grid, onGrid, slope, smoothed } from "./grid.ts";

/** How the aircraft moved, cell by cell; null where no channel tells. */
export interface Motion {
  /** m/s over ground, or through the air where only that is logged */
  readonly speed: Float64Array | null;
  /** m/s, up positive */
  readonly climb: Float64Array | null;
  /** rad/s, size of the change of heading or of course, whichever is larger */
  readonly turn: Float64Array | null;
}

/** Reads speed, climb and turn from whatever channels there are. */
export function readMotion(log: Log, grid: Grid): Motion {
  return { speed: speedOf(log, grid), climb: climbOf(log, grid), turn: turnOf(log, grid) };
}

function speedOf(log: Log, grid: Grid): Float64Array | null {
  for (const name of ["speed.ground", "speed.air"]) {
    const channel = log.channels.get(name);
    if (channel !== undefined) return smoothed(onGrid(channel, grid), grid, 0.5);
  }
  for (const [first, second] of [
    ["velocity.north", "velocity.east"],
    ["velocity.forward", "velocity.right"],
  ] as const) {
    const a = log.channels.get(first);
    const b = log.channels.get(second);
    if (a === undefined || b === undefined) continue;
    const along = smoothed(onGrid(a, grid), grid, 0.5);
    const across = smoothed(onGrid(b, grid), grid, 0.5);
    return along.map((value, cell) => Math.hypot(value, across[cell]!));
  }
  return null;
}

function climbOf(log: Log, grid: Grid): Float64Array | null {
  const down = log.channels.get("velocity.down");
  if (down !== undefined) return smoothed(onGrid(down, grid), grid, 1).map((value) => -value);
  const altitude = log.channels.get("altitude");
  return altitude === undefined ? null : slope(smoothed(onGrid(altitude, grid), grid, 0.5), grid, 1);
}

function turnOf(log: Log, grid: Grid): Float64Array | null {
  const rates = [headingRate(log, grid), courseRate(log, grid)].filter((rate) => rate !== null);
  if (rates.length === 0) return null;
  return new Float64Array(grid.cells).map((_, cell) => {
    const known = rates.map((rate) => Math.abs(rate[cell]!)).filter((rate) => !Number.isNaN(rate));
    return known.length === 0 ? Number.NaN : Math.max(...known);
  });
}

function headingRate(log: Log, grid: Grid): Float64Array | null {
  const yawRate = log.channels.get("rate.yaw.measured");
  if (yawRate !== undefined) return smoothed(onGrid(yawRate, grid), grid, 1);
  const heading = log.channels.get("heading") ?? log.channels.get("attitude.yaw.measured");
  if (heading === undefined) return null;
  // The mean of an angle is taken through its sine and cosine, so that it does not break where the angle wraps.
  const sine = onGrid(heading, grid, Math.sin);
  const cosine = onGrid(heading, grid, Math.cos);
  return angleRate(sine, cosine, grid);
}

/** Course over ground turns even where the nose does not. Below 0.3 m/s it means nothing. */
function courseRate(log: Log, grid: Grid): Float64Array | null {
  const north = log.channels.get("velocity.north");
  const east = log.channels.get("velocity.east");
  if (north === undefined || east === undefined) return null;
  const northward = smoothed(onGrid(north, grid), grid, 1);
  const eastward = smoothed(onGrid(east, grid), grid, 1);
  const rate = angleRate(eastward, northward, grid);
  return rate.map((value, cell) => (Math.hypot(northward[cell]!, eastward[cell]!) < 0.3 ? Number.NaN : value));
}

function angleRate(sine: Float64Array, cosine: Float64Array, grid: Grid): Float64Array {
  const half = Math.max(1, Math.round(0.5 / grid.step));
  return sine.map((_, cell) => {
    const low = Math.max(0, cell - half);
    const high = Math.min(sine.length - 1, cell + half);
    const cross = sine[high]! * cosine[low]! - cosine[high]! * sine[low]!;
    const dot = cosine[high]! * cosine[low]! + sine[high]! * sine[low]!;
    return Math.atan2(cross, dot) / ((high - low) * grid.step);
  });
}
