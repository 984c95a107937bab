import {
  controlEffectiveness,
  type Effectiveness,
  type ThrustRange,
  thrustRanges,
  thrustsOf,
} from "../aircraft/index.ts";
import { channelOf, commandedMotors, type Flight, onceAFlight } from "../flight/index.ts";
import type { Channel } from "../log/channel.ts";
import type { IndexRange } from "./air-time.ts";
import { alignChannels } from "./align-channels.ts";
import { blockSize, thinning } from "./thinning.ts";

/** The thrusts that the commands asked of all motors in the air, on one clock of at most some 200 Hz. */
export interface MotorThrusts {
  readonly effectiveness: Effectiveness;
  readonly ranges: readonly ThrustRange[];
  readonly time: Float64Array;
  /** one array a motor, N (or shares, see `Effectiveness`), held within the motor's range */
  readonly thrusts: readonly Float64Array[];
  /** sum over the motors */
  readonly total: Float64Array;
  readonly stretches: readonly IndexRange[];
  /** s, usual time between samples */
  readonly interval: number;
}

/**
 * Hz. A rotor follows its command within some hundredths of a second (common practice): what a faster log holds beyond
 * this never became thrust, so its thrusts are means over blocks.
 */
export const FASTEST = 200;

/** Null where the aircraft is unknown or no motor command is logged in the air. Computed once a flight. */
export const motorThrusts = onceAFlight((flight: Flight): MotorThrusts | null => {
  const { aircraft } = flight;
  const motors = commandedMotors(flight);
  if (aircraft === null || motors.length !== aircraft.motors.length) return null;
  const channels = motors.map((motor) => channelOf(flight, `motor.${motor}.command`)!) as [Channel, ...Channel[]];
  const aligned = alignChannels(channels, flight.airborne);
  if (aligned.time.length === 0) return null;
  const every = blockSize(channels[0].rate, FASTEST);
  const thin = thinning(aligned.stretches, every);
  const time = thin.mean(aligned.time);
  const effectiveness = controlEffectiveness(aircraft);
  const ranges = thrustRanges(aircraft, effectiveness);
  const thrusts = aligned.values.map((commands, i) => {
    const { low, high } = ranges[i]!;
    const asked = thrustsOf(aircraft, high, commands);
    for (let k = 0; k < asked.length; k++) if (asked[k]! < low) asked[k] = low;
    return thin.mean(asked);
  });
  const total = new Float64Array(time.length);
  for (const thrust of thrusts) for (let k = 0; k < total.length; k++) total[k] = total[k]! + thrust[k]!;
  const { stretches } = thin;
  return { effectiveness, ranges, time, thrusts, total, stretches, interval: every / channels[0].rate };
});
