import type { Axis } from "../aircraft/aircraft.ts";
import type { Flight } from "../flight/flight.ts";
import type { Span } from "../log/channel.ts";

/** A number with its unit and, where it has one, its interval (95 % unless `level` says otherwise). */
export interface Estimate {
  readonly value: number;
  readonly unit: string;
  readonly low?: number;
  readonly high?: number;
  readonly level?: number;
}

/** The same number for one of several motors. */
export interface MotorEstimate extends Estimate {
  readonly motor: number;
}

/** What one detector measured: numbers, no words. `kind` tells which. */
export interface EvidenceBase extends Span {
  readonly kind: string;
  readonly axis?: Axis;
  readonly loop?: string;
  readonly motor?: number;
  readonly channel?: string;
  /** estimated probability that what the evidence claims is true */
  readonly confidence: number;
  readonly measures: Readonly<Record<string, Estimate>>;
  /** measures that are one number per motor */
  readonly perMotor?: Readonly<Record<string, readonly MotorEstimate[]>>;
  /** the stretches in which it happened, where it is not the whole of `start`..`end` */
  readonly stretches?: readonly Span[];
}

/** A detector looks at a flight and returns evidence; it declares what it needs so that its absence can be told. */
export interface Detector<E extends EvidenceBase = EvidenceBase> {
  readonly kind: E["kind"];
  /** channels (or `aircraft`) without which nothing can be examined; empty where all is there */
  missing(flight: Flight): string[];
  /** @param baseline a good flight of the same aircraft, where the user gave one */
  detect(flight: Flight, baseline?: Flight | null): E[];
}
