export {
  type Aircraft,
  AXES,
  type Axis,
  type CommandRange,
  commandFraction,
  DEFAULT_THRUST_EXPONENT,
  type Measured,
  type Motor,
  type ThrustCurve,
  thrustShare,
} from "./aircraft.ts";
export { parseAircraft, readAircraft } from "./aircraft-file.ts";
export { type AttainableMoments, attainableMoments } from "./attainable-moments.ts";
export {
  controlEffectiveness,
  type Effectiveness,
  leastThrusts,
  TYPICAL_TORQUE_RATIO,
  WRENCH,
  wrenchOf,
} from "./effectiveness.ts";
export { exactThrusts } from "./exact-allocation.ts";
export { type MomentRoom, momentRoom } from "./moment-left.ts";
export { isSamePlace } from "./same-place.ts";
export { type ThrustRange, thrustRanges, thrustsOf } from "./thrusts-of.ts";
