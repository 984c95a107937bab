import { type Aircraft, commandFraction, thrustShare } from "./aircraft.ts";
import type { Effectiveness } from "./effectiveness.ts";

/** Thrusts of one motor at its armed floor and at full command, N (or shares, see `Effectiveness.isInNewtons`). */
export interface ThrustRange {
  readonly low: number;
  readonly high: number;
}

/** Between what each motor's thrust can move: from its armed floor to full command. */
export function thrustRanges({ command, thrust }: Aircraft, { maxThrust }: Effectiveness): ThrustRange[] {
  const floor = thrustShare(thrust, commandFraction(command, command.idle));
  return Array.from(maxThrust, (high) => ({ low: floor * high, high }));
}

/** Thrusts that one motor's commands ask for: largest thrust times fraction to the exponent of the thrust curve. */
export function thrustsOf({ command, thrust }: Aircraft, maxThrust: number, commands: Float64Array): Float64Array {
  const thrusts = new Float64Array(commands.length);
  for (let k = 0; k < thrusts.length; k++) {
    const fraction = Math.min(1, Math.max(0, commandFraction(command, commands[k]!)));
    thrusts[k] = maxThrust * thrustShare(thrust, fraction);
  }
  return thrusts;
}
