import type { Controller } from "../control/controller.ts";
import type { Body, Vehicle } from "../physics/vehicle.ts";
import type { Setup } from "../scenario/setup.ts";
import type { Fault, FaultKind, FaultOf } from "./fault.ts";

/** The parts of a flight that faults may change; `body` is replaced, arrays are written into. */
export interface Patient {
  readonly vehicle: Vehicle;
  readonly controller: Controller;
  /** s by which each axis' output is held up */
  readonly outputDelay: Float64Array;
  /** kt, wind at 20 ft that sets the gusts; rad/s, largest gyro reading */
  air: { gusts: number };
  gyro: { limit: number };
  /** N, what a nick in each motor's blade pulls with at full speed */
  readonly shake: Float64Array;
}

/** The moment at which a push is asked for. */
export interface Instant {
  readonly time: number;
  readonly dt: number;
  /** state vector, see STATE */
  readonly state: Float64Array;
  /** m/s^2 and m/s in body axes */
  readonly specificForce: Float64Array;
  readonly airVelocity: Float64Array;
  readonly density: number;
}

/** How one fault acts. Either or both: standing changes while it lasts, a force and moment renewed at each step. */
export interface FaultEffect {
  /** called at each change of strength (0..1), on parameters that were restored to health first */
  readonly adjust?: (patient: Patient, strength: number) => void;
  /** adds to the six numbers of the outside force and moment */
  readonly push?: (now: Instant, strength: number, wrench: Float64Array) => void;
}

/** Makes the effect of a fault for one flight; `stream` numbers the fault's own noise. */
export type FaultMaker<F extends Fault = Fault> = (fault: F, setup: Setup, stream: number) => FaultEffect;

export type FaultMakers<K extends FaultKind> = { readonly [Kind in K]: FaultMaker<FaultOf<Kind>> };

/** The body with some of its numbers changed. */
export function changeBody(patient: Patient, change: Partial<Body>): void {
  patient.vehicle.body = { ...patient.vehicle.body, ...change };
}

/** Place of an axis in every array of three. */
export const AXIS_INDEX = { roll: 0, pitch: 1, yaw: 2 } as const;
