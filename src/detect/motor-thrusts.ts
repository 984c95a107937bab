import {
  type Axis,
  controlEffectiveness,
  type Effectiveness,
  type ThrustRange,
  thrustRanges,
  thrustsOf,
  WRENCH,
} from "../aircraft/index.ts";
import { channelOf, commandedMotors, type Flight, onceAFlight } from "../flight/index.ts";
import type { Channel } from "../log/channel.ts";
import { addScaled } from "../signal/index.ts";
import type { IndexRange } from "./air-time.ts";
import { alignChannels } from "./align-channels.ts";
import { blockSize, blocksOf } from "./block-means.ts";

/** The thrusts that the commands asked of all motors in the air, on one clock. */
export interface MotorThrusts {
  readonly effectiveness: Effectiveness;
  readonly ranges: readonly ThrustRange[];
  readonly time: Float64Array;
  /** s, from when on each holds: `time` itself but for means over blocks, whose times are those of the middles */
  readonly since: Float64Array;
  /** one array a motor, N (or shares, see `Effectiveness`), held within the motor's range */
  readonly thrusts: readonly Float64Array[];
  /** sum over the motors */
  readonly total: Float64Array;
  readonly stretches: readonly IndexRange[];
  /** s, usual time between samples */
  readonly interval: number;
}

/** Null where the aircraft is unknown or no motor command is logged in the air. Computed once a flight. */
export const motorThrusts = onceAFlight((flight: Flight): MotorThrusts | null => {
  const { aircraft } = flight;
  const motors = commandedMotors(flight);
  if (aircraft === null || motors.length !== aircraft.motors.length) return null;
  const channels = motors.map((motor) => channelOf(flight, `motor.${motor}.command`)!) as [Channel, ...Channel[]];
  const { time, values, stretches } = alignChannels(channels, flight.airborne);
  if (time.length === 0) return null;
  const effectiveness = controlEffectiveness(aircraft);
  const ranges = thrustRanges(aircraft, effectiveness);
  const thrusts = values.map((commands, i) => {
    const { low, high } = ranges[i]!;
    return atLeast(low, thrustsOf(aircraft, high, commands));
  });
  const total = sumOf(thrusts);
  return { effectiveness, ranges, time, since: time, thrusts, total, stretches, interval: 1 / channels[0].rate };
});

/**
 * Hz. A rotor follows its command within some hundredths of a second (common practice): what a log of twice this rate
 * or more holds beyond it never became thrust.
 */
export const ROTOR_PACE = 200;

/** The same thrusts as rotors can follow them: of a log of twice `ROTOR_PACE` or more, means over blocks of samples. */
export function atRotorPace(motors: MotorThrusts): MotorThrusts {
  const { time, stretches, interval } = motors;
  const every = blockSize(time, stretches, ROTOR_PACE);
  if (every === 1) return motors;
  const blocks = blocksOf(stretches, every);
  const thrusts = motors.thrusts.map(blocks.mean);
  return {
    ...motors,
    time: blocks.mean(time),
    since: blocks.first(time),
    thrusts,
    total: sumOf(thrusts),
    stretches: blocks.stretches,
    interval: every * interval,
  };
}

/** Moment about an axis that the thrusts add up to at each time, N m (or in proportion, see `Effectiveness`). */
export function momentAbout({ effectiveness: { matrix }, thrusts, time }: MotorThrusts, axis: Axis): Float64Array {
  const count = thrusts.length;
  const levers = matrix.data.subarray(WRENCH[axis] * count, (WRENCH[axis] + 1) * count);
  const moments = new Float64Array(time.length);
  for (const [i, thrust] of thrusts.entries()) addScaled(moments, levers[i]!, thrust);
  return moments;
}

function atLeast(low: number, values: Float64Array): Float64Array {
  for (let k = 0; k < values.length; k++) if (values[k]! < low) values[k] = low;
  return values;
}

function sumOf(thrusts: readonly Float64Array[]): Float64Array {
  const total = new Float64Array(thrusts[0]?.length ?? 0);
  for (const thrust of thrusts) addScaled(total, 1, thrust);
  return total;
}
