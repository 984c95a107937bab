import type { Aircraft } from "../aircraft/aircraft.ts";
import type { Channel, Span } from "../log/channel.ts";
import type { Log } from "../log/log.ts";
import { quantile } from "../signal/index.ts";
import { commandLimits } from "./command-limits.ts";
import { type Grid, gridOver, onGrid, runsOf } from "./grid.ts";

/** When the aircraft flew, and by what that was told. */
export interface Airborne {
  readonly spans: readonly Span[];
  readonly by: string;
}

/** What decided where nothing could: the aircraft may have been anywhere at any time. */
export const NOTHING_TELLS = "nothing in this log tells; the whole log counts as air time";

/** s, cell in which air time is decided: two samples of a 100 Hz log, so that a landing's edge is cut sharply */
const STEP = 0.02;
/** s; a shorter lapse of thrust is a manoeuvre (a fast descent, a bounce of the throttle), not a landing */
const SHORTEST_LANDING = 2;
/** s; a shorter burst of thrust is a motor test */
const SHORTEST_FLIGHT = 0.5;

/**
 * Decides when the aircraft was in the air: by the thrust asked of its motors where logged (more than half the command
 * that holds it in hover), else by its height, else by nothing, and then the whole span counts.
 */
export function findAirborne(log: Log, aircraft: Aircraft | null, span: Span): Airborne {
  const grid = gridOver(span, STEP);
  const altitude = log.channels.get("altitude");
  const height = altitude && heightAboveGround(altitude, grid);
  const thrust = thrustDemand(log, aircraft, grid);
  if (thrust !== null) {
    const hover = hoverLevel(thrust.values);
    const flying = thrust.values.map((value) => (Number.isNaN(value) ? Number.NaN : value > hover / 2 ? 1 : 0));
    const landed = height?.map((value) => (value < 0 ? 1 : 0));
    return { spans: spansOf(flying, grid, span, landed), by: thrust.by };
  }
  if (height !== undefined) {
    const flying = height.map((value) => (Number.isNaN(value) ? Number.NaN : value >= 0 ? 1 : 0));
    return { spans: spansOf(flying, grid, span), by: "height above the take-off point" };
  }
  return { spans: [span], by: NOTHING_TELLS };
}

function thrustDemand(log: Log, aircraft: Aircraft | null, grid: Grid) {
  const limits = commandLimits(log, aircraft);
  if (limits !== null) {
    const motors = [...log.channels.values()].filter(({ name }) => /^motor\.\d+\.command$/.test(name));
    const commands = motors.map((motor) => onGrid(motor, grid));
    const values = new Float64Array(grid.cells).map((_, cell) => {
      const command = commands.reduce((sum, motor) => sum + motor[cell]!, 0) / motors.length;
      return (command - limits.min) / (limits.max - limits.min);
    });
    return { values, by: "motor commands" };
  }
  const collective = log.channels.get("collective.demand");
  return collective === undefined ? null : { values: onGrid(collective, grid), by: "collective demand" };
}

/** The middle of what is asked while something is asked: more than 30 % of the highest values. */
function hoverLevel(thrust: Float64Array): number {
  const known = thrust.filter((value) => !Number.isNaN(value));
  if (known.length === 0) return Number.POSITIVE_INFINITY;
  const high = quantile(known, 0.95);
  const working = known.filter((value) => value > 0.3 * high);
  return working.length === 0 ? Number.POSITIVE_INFINITY : quantile(working, 0.5);
}

/** Height less the height at which it counts as flying: 15 % of the usual height, between 0.1 m and 1 m. */
function heightAboveGround(altitude: Channel, grid: Grid): Float64Array {
  const height = onGrid(altitude, grid);
  const known = height.filter((value) => !Number.isNaN(value));
  if (known.length === 0) return height;
  const threshold = Math.min(1, Math.max(0.1, 0.15 * quantile(known, 0.95)));
  return height.map((value) => value - threshold);
}

function spansOf(flying: Float64Array, grid: Grid, span: Span, landed?: Float64Array): Span[] {
  const joined: { from: number; to: number }[] = [];
  for (const run of runsOf(throughGaps(flying))) {
    const open = joined.at(-1);
    if (open !== undefined && isLapse(open.to, run.from, grid, landed)) open.to = run.to;
    else joined.push({ ...run });
  }
  // The first and last cell of a run hold the moment of take-off and of touch-down, with the motors at rest on one side.
  return joined
    .map(({ from, to }) => ({
      start: grid.start + (from === 0 ? 0 : from + 1) * grid.step,
      end: Math.min(span.end, grid.start + (to - 1) * grid.step),
    }))
    .filter(({ start, end }) => end - start >= SHORTEST_FLIGHT);
}

function isLapse(from: number, to: number, grid: Grid, landed?: Float64Array): boolean {
  if ((to - from) * grid.step >= SHORTEST_LANDING) return false;
  return landed === undefined || !landed.subarray(from, to).some((cell) => cell === 1);
}

/** Over a pause in the log it goes on as it was before: an aircraft that flew at its start is not taken to have landed. */
function throughGaps(flying: Float64Array): Float64Array {
  let last = 0;
  return flying.map((value) => {
    if (!Number.isNaN(value)) last = value;
    return last;
  });
}
