import { type AuthorityEvidence, authority } from "./authority.ts";
import { type DataQualityEvidence, dataQuality } from "./data-quality.ts";
import { type IntegratorWindupEvidence, integratorWindup } from "./integrator-windup.ts";
import { type MotorHeadroomEvidence, motorHeadroom } from "./motor-headroom.ts";
import { type MotorLimitEvidence, motorFloor, motorSaturation } from "./motor-limits.ts";
import { type MotorResponseEvidence, motorResponse } from "./motor-response.ts";
import { type OscillationEvidence, oscillation } from "./oscillation/oscillation.ts";
import { type SensorClippingEvidence, sensorClipping } from "./sensor-clipping.ts";
import { type ThrustImbalanceEvidence, thrustImbalance } from "./thrust-imbalance.ts";
import { type TrackingEvidence, tracking } from "./tracking.ts";
import { type UpsetEvidence, upset } from "./upset/upset.ts";
import { type VibrationEvidence, vibration } from "./vibration.ts";

export { rangesWithin, valuesWithin } from "./air-time.ts";
export { alignChannels } from "./align-channels.ts";
export type { AuthorityEvidence } from "./authority.ts";
export { type AuthoritySeries, authoritySeries, type Direction } from "./authority-series.ts";
export { authorityBySteps } from "./authority-steps.ts";
export { compareTrims, type LoadChange, type RefusedBaseline } from "./balance/compare-trims.ts";
export type { Pattern } from "./balance/imbalance-patterns.ts";
export { neighbourCorrelation } from "./balance/mean-shares.ts";
export { type SteadyCondition, steadyConditions } from "./balance/steady-conditions.ts";
export { steadyTrims, type Trim, withoutWind } from "./balance/steady-trims.ts";
export { thrustDemand } from "./balance/thrust-demand.ts";
export type { DataQualityEvidence, DataQualityProblem } from "./data-quality.ts";
export type { Detector, Estimate, EvidenceBase, MotorEstimate } from "./evidence.ts";
export type { HeadroomForecast, HeadroomPoint } from "./headroom-forecast.ts";
export { forecastHeadroomAt, SPENT } from "./headroom-forecast.ts";
export { type IntegralTerm, type IntegratorWindupEvidence, integralTerm } from "./integrator-windup.ts";
export { lowestAt } from "./lowest-at.ts";
export { type HeadroomTrend, headroomOf, headroomTrend, type MotorHeadroomEvidence } from "./motor-headroom.ts";
export type { MotorLimitEvidence } from "./motor-limits.ts";
export type { MotorResponseEvidence } from "./motor-response.ts";
export { bandMotion } from "./oscillation/band-motion.ts";
export type { Driver, DriverDecision, Loop, LoopResponse } from "./oscillation/decide-driver.ts";
export type { DriveMeasures } from "./oscillation/drive-measures.ts";
export type { Trend } from "./oscillation/envelope-trend.ts";
export type { OscillationEvidence } from "./oscillation/oscillation.ts";
export { pairResponse, responseError } from "./response-pair.ts";
export type { SensorClippingEvidence } from "./sensor-clipping.ts";
export { thinned } from "./thinned.ts";
export type { ThrustImbalanceEvidence } from "./thrust-imbalance.ts";
export type { TrackingEvidence } from "./tracking.ts";
export type { UpsetEvidence } from "./upset/upset.ts";
export type { VibrationEvidence } from "./vibration.ts";
export type { VoltageForecast } from "./voltage-forecast.ts";
export {
  authority,
  dataQuality,
  integratorWindup,
  motorFloor,
  motorHeadroom,
  motorResponse,
  motorSaturation,
  oscillation,
  sensorClipping,
  thrustImbalance,
  tracking,
  upset,
  vibration,
};

/** Whatever a detector can report; `kind` tells which. */
export type Evidence =
  | AuthorityEvidence
  | DataQualityEvidence
  | IntegratorWindupEvidence
  | MotorHeadroomEvidence
  | MotorLimitEvidence
  | MotorResponseEvidence
  | OscillationEvidence
  | SensorClippingEvidence
  | ThrustImbalanceEvidence
  | TrackingEvidence
  | UpsetEvidence
  | VibrationEvidence;

/** Every detector, in the order in which a diagnosis runs them. */
export const DETECTORS = [
  dataQuality,
  motorSaturation,
  motorFloor,
  motorHeadroom,
  motorResponse,
  sensorClipping,
  authority,
  integratorWindup,
  oscillation,
  upset,
  thrustImbalance,
  vibration,
  tracking,
] as const;
