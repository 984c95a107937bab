import { AXES, type Axis } from "../../aircraft/index.ts";
import { channelOf, type Flight } from "../../flight/index.ts";
import type { Detector, EvidenceBase } from "../evidence.ts";
import { oscillation } from "../oscillation/oscillation.ts";
import { CALM, type Excursion, excursionsOf, isLoss } from "./excursions.ts";

/** A tumble, kick or departure that no set point asked for. */
export interface UpsetEvidence extends EvidenceBase {
  readonly kind: "upset";
  readonly axis: Axis;
  /** s until the axis was calm again; null where the data ends, or the flight does, before that */
  readonly recovery: number | null;
  /** s, when the attitude set point jumped by more than an aircraft can follow just before; null where it did not */
  readonly jumpAt: number | null;
  /** other axes with an upset of their own at the same time */
  readonly alsoOn: readonly Axis[];
}

/** An oscillation turns the aircraft this many times its own amplitude at most: noise and harmonics add to it. */
const OF_OSCILLATION = 2.5;

/**
 * Finds, per axis, turning that is far above what the flight usually shows and what any set point asked for within the
 * last moments (`excursionsOf`). What is the swing of an oscillation is left to that finding, unless control was lost.
 */
export const upset: Detector<UpsetEvidence> = {
  kind: "upset",
  missing(flight) {
    return AXES.some((axis) => channelOf(flight, `rate.${axis}.measured`) !== undefined) ? [] : ["rate.AXIS.measured"];
  },
  detect(flight) {
    const found = AXES.flatMap((axis) => excursionsOf(flight, axis)).filter((one) => !isSwing(flight, one));
    return found.map(
      (one): UpsetEvidence => ({
        kind: "upset",
        axis: one.axis,
        start: one.start,
        end: one.end,
        recovery: one.recovery,
        jumpAt: one.jump?.at ?? null,
        alsoOn: found
          .filter((other) => other.axis !== one.axis && other.start < one.end + CALM && one.start < other.end + CALM)
          .map(({ axis }) => axis)
          .filter((axis, i, all) => all.indexOf(axis) === i),
        confidence: Math.min(0.97, 0.6 + 0.1 * (one.rate / one.threshold)),
        measures: {
          rate: { value: one.rate, unit: "rad/s" },
          angle: { value: one.angle, unit: "rad" },
          ...(one.jump && { jump: { value: Math.abs(one.jump.size), unit: "rad" } }),
        },
      }),
    );
  },
};

function isSwing(flight: Flight, one: Excursion): boolean {
  if (isLoss(one)) return false;
  return oscillation
    .detect(flight)
    .some(
      ({ axis, start, end, measures }) =>
        axis === one.axis &&
        start < one.end &&
        end > one.start &&
        one.rate < OF_OSCILLATION * measures.amplitude!.value,
    );
}
