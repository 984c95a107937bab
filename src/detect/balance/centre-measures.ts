import { studentTQuantile } from "../../signal/index.ts";
import type { Estimate, MotorEstimate } from "../evidence.ts";
import { reachOf } from "./imbalance-patterns.ts";
import type { Layout } from "./load-shares.ts";
import { BETWEEN_AIRCRAFT, BETWEEN_FLIGHTS, type MeasuredShift, withTolerance } from "./shift-of.ts";
import { type SizeOfUnknown, sizeOfUnknown } from "./size-of-unknown.ts";
import { tiltOfOneMotor } from "./tilt-of-one-motor.ts";
import type { Verdict } from "./verdict.ts";

/** A shift to be put into numbers. */
export interface ShiftOfFlight {
  readonly layout: Layout;
  /** thrust of each motor over the total, in the flight whose shift it is */
  readonly shares: Float64Array;
  readonly measured: MeasuredShift;
  readonly freedom: number;
  /** by how much each motor's share changed from the baseline; null without one */
  readonly moved: Float64Array | null;
}

/**
 * The numbers of a shift. Centre of gravity in m and spin bias are where the load lies, as measured. The loss of a named
 * motor and the tilt of one motor are sizes of a cause: where two causes share the shift, their intervals hold what
 * loads in order differ by besides, and that of the loss does so without a baseline too, because nothing tells then
 * what the aircraft brought along. `tilts` are those of each motor if it is the tilted one.
 */
export function centreMeasures(of: ShiftOfFlight, verdict: Verdict) {
  const { layout, shares, measured, freedom } = of;
  const { shift, covariance } = measured;
  const reach = reachOf(layout);
  const half = studentTQuantile(0.975, freedom);
  const interval = (value: number, sd: number, unit: string): Estimate => ({
    value,
    unit,
    low: value - half * sd,
    high: value + half * sd,
  });
  const sd = (k: number) => Math.sqrt(covariance[4 * k]!);
  const bias = twistOf(of, verdict) ?? { value: shift[2], half: half * sd(2) };
  const tilt = layout.isTorqueKnown ? tiltOfOneMotor(layout, shares, bias.value, bias.half) : null;
  return {
    measures: {
      "cg-forward": interval(shift[0] * reach, sd(0) * reach, "m"),
      "cg-right": interval(shift[1] * reach, sd(1) * reach, "m"),
      "spin-bias": interval(shift[2], sd(2), "1"),
      ...(tilt !== null && { tilt: { value: tilt.value, unit: "rad", low: tilt.low, high: tilt.high } }),
      ...(verdict.pattern === "single-motor" && { loss: lossOf(of, verdict) }),
    },
    tilts: (tilt?.ofEach ?? []).flatMap((one, i): MotorEstimate[] =>
      one === null ? [] : [{ motor: i + 1, ...one, unit: "rad" }],
    ),
  };
}

/** The part of the spin bias that a spin pair makes beside another cause; null where there is one cause. */
function twistOf(of: ShiftOfFlight, { besides, explanation }: Verdict): SizeOfUnknown | null {
  // Of two causes the spin pair's unknown is the first or the last.
  const k = explanation.pattern === "spin-pair" ? 0 : explanation.directions.length - 1;
  return besides === null ? null : sizeOf(of, explanation, k, scatter(of));
}

/**
 * The loss of the one motor that the verdict names. Of its demand the part `loss` makes no thrust, so the centre of the
 * demands lies off the centre of the thrusts by loss x share x arm, whatever way the controller shared out the rest:
 * exact for any number of motors.
 */
function lossOf(of: ShiftOfFlight, { motors, besides, explanation }: Verdict): Estimate {
  const motor = motors[0]!;
  const noise = besides === null && of.moved !== null ? of.measured.covariance : scatter(of, motor);
  const { value, half } = sizeOf(of, explanation, 0, noise);
  // The direction is for the share that the motor would carry in order.
  const scale = of.layout.healthy[motor - 1]! / of.shares[motor - 1]!;
  return { value: scale * value, unit: "1", low: scale * (value - half), high: scale * (value + half) };
}

const sizeOf = (
  { measured: { shift, covariance }, freedom }: ShiftOfFlight,
  explanation: Verdict["explanation"],
  k: number,
  noise: Float64Array,
) => sizeOfUnknown(explanation, k, shift, covariance, noise, freedom);

/** Covariance of the shift with what loads in order differ by, one motor's own part left out where it is asked for. */
const scatter = ({ layout, measured, moved }: ShiftOfFlight, except?: number) =>
  withTolerance(layout, measured.covariance, moved === null ? BETWEEN_AIRCRAFT : BETWEEN_FLIGHTS, {
    except,
    moved: moved ?? undefined,
  });
