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
