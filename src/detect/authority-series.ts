import { type Axis, leastThrusts, type MomentRoom, momentRoom } from "../aircraft/index.ts";
import { type Flight, onceAFlight } from "../flight/index.ts";
import { mean, median } from "../signal/index.ts";
import { rangesWithin } from "./air-time.ts";
import { atRotorPace, type MotorThrusts, motorThrusts } from "./motor-thrusts.ts";

export const DIRECTIONS = { positive: 1, negative: -1 } as const;
export type Direction = keyof typeof DIRECTIONS;

/** Control authority over the time in the air. */
export interface AuthoritySeries {
  /** at the pace of rotors, see `atRotorPace` */
  readonly motors: MotorThrusts;
  readonly room: MomentRoom;
  /** the thrust that counts as hover, in the unit of the thrusts, and how it is known */
  readonly hover: { readonly thrust: number; readonly from: "hover phases" | "median of the air time" };
  readonly axes: readonly {
    readonly axis: Axis;
    readonly direction: Direction;
    /** moment left in balanced hover, N m (or in proportion, see `Effectiveness`) */
    readonly inHover: number;
    /** moment left at each sample of `motors.time`, over that in hover */
    readonly left: Float64Array;
  }[];
}

/** s; shorter hovers are passages, not hovers */
const SHORTEST_HOVER = 2;

/**
 * The moment still available about each axis and in each direction, with thrust and the other moments held, over what
 * is available that way in balanced hover (the same thrust, no moment). 0: a motor that would have to give more, or
 * less, is at its limit. Null without aircraft or motor commands. Computed once a flight.
 */
export const authoritySeries = onceAFlight((flight: Flight): AuthoritySeries | null => {
  const asked = motorThrusts(flight);
  if (asked === null) return null;
  const motors = atRotorPace(asked);
  const { effectiveness, ranges, thrusts } = motors;
  const room = momentRoom(effectiveness, ranges);
  const hover = hoverThrust(flight, motors);
  const balanced = leastThrusts(effectiveness, [hover.thrust, 0, 0, 0]).map((thrust, i) =>
    Math.min(ranges[i]!.high, Math.max(ranges[i]!.low, thrust)),
  );
  const leftOver = room.over(thrusts);
  const axes = room.axes
    .flatMap((axis) => (["positive", "negative"] as const).map((direction) => ({ axis, direction })))
    .map(({ axis, direction }) => ({ axis, direction, inHover: room.left(axis, DIRECTIONS[direction], balanced) }))
    .filter(({ inHover }) => inHover > 0)
    .map((one) => {
      const left = leftOver(one.axis, DIRECTIONS[one.direction]);
      for (let k = 0; k < left.length; k++) left[k] = Math.max(0, left[k]!) / one.inHover;
      return { ...one, left };
    });
  return { motors, room, hover, axes };
});

function hoverThrust({ phases }: Flight, { time, total }: MotorThrusts): AuthoritySeries["hover"] {
  const hovers = phases.filter(({ kind, start, end }) => kind === "hover" && end - start >= SHORTEST_HOVER);
  const parts = rangesWithin(time, hovers).map(({ from, to }) => total.subarray(from, to));
  const count = parts.reduce((sum, { length }) => sum + length, 0);
  if (count === 0) return { thrust: median(total), from: "median of the air time" };
  return { thrust: parts.reduce((sum, part) => sum + mean(part) * part.length, 0) / count, from: "hover phases" };
}
