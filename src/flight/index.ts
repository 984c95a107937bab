export { type Airborne, findAirborne, NOTHING_TELLS } from "./airborne.ts";
export { aircraftQuestions } from "./aircraft-questions.ts";
export { buildFlight } from "./build-flight.ts";
export { type CommandLimits, commandLimits } from "./command-limits.ts";
export { findPhases } from "./find-phases.ts";
export {
  channelOf,
  commandedMotors,
  type Flight,
  motorsWith,
  PHASE_KINDS,
  type Phase,
  type PhaseKind,
} from "./flight.ts";
export { onceAFlight } from "./once-a-flight.ts";
export { speedTolerance } from "./speed-steps.ts";
export { rangeOf, standsStill } from "./still-set-points.ts";
