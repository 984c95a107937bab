import { type AuthorityEvidence, authority } from "./authority.ts";
import { type DataQualityEvidence, dataQuality } from "./data-quality.ts";
import { type IntegratorWindupEvidence, integratorWindup } from "./integrator-windup.ts";
import { type MotorHeadroomEvidence, motorHeadroom } from "./motor-headroom.ts";
import { type MotorLimitEvidence, motorFloor, motorSaturation } from "./motor-limits.ts";
import { type OscillationEvidence, oscillation } from "./oscillation/oscillation.ts";
import { type TrackingEvidence, tracking } from "./tracking.ts";
import { type UpsetEvidence, upset } from "./upset/upset.ts";

export type { AuthorityEvidence } from "./authority.ts";
export { type AuthoritySeries, authoritySeries, type Direction } from "./authority-series.ts";
export type { DataQualityEvidence, DataQualityProblem } from "./data-quality.ts";
export type { Detector, Estimate, EvidenceBase } from "./evidence.ts";
export type { HeadroomForecast, HeadroomPoint } from "./headroom-forecast.ts";
export type { IntegratorWindupEvidence } from "./integrator-windup.ts";
export type { MotorHeadroomEvidence } from "./motor-headroom.ts";
export type { MotorLimitEvidence } from "./motor-limits.ts";
export type { Driver, DriverDecision, Loop, LoopResponse } from "./oscillation/decide-driver.ts";
export type { DriveMeasures } from "./oscillation/drive-measures.ts";
export type { Trend } from "./oscillation/envelope-trend.ts";
export type { OscillationEvidence } from "./oscillation/oscillation.ts";
export type { TrackingEvidence } from "./tracking.ts";
export type { UpsetEvidence } from "./upset/upset.ts";
export {
  authority,
  dataQuality,
  integratorWindup,
  motorFloor,
  motorHeadroom,
  motorSaturation,
  oscillation,
  tracking,
  upset,
};

/** Whatever a detector can report; `kind` tells which. */
export type Evidence =
  | IntegratorWindupEvidence
  | AuthorityEvidence
  | DataQualityEvidence
  | MotorLimitEvidence
  | MotorHeadroomEvidence
  | OscillationEvidence
  | UpsetEvidence
  | TrackingEvidence;

/** Every detector, in the order in which a diagnosis runs them. */
export const DETECTORS = [
  dataQuality,
  motorSaturation,
  motorFloor,
  motorHeadroom,
  authority,
  integratorWindup,
  oscillation,
  upset,
  tracking,
] as const;
