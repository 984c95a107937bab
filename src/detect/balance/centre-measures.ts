import { studentTQuantile } from "../../signal/index.ts";
import type { Estimate, MotorEstimate } from "../evidence.ts";
import { reachOf, type Shift, SPIN_ALONE } from "./imbalance-patterns.ts";
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
  /** where the load lay in the baseline, as `measured.shift` has it; zeros without one */
  readonly before: Shift;
}

/**
 * The numbers of a shift. Centre of gravity in m and spin bias are where the load lies, as measured. The rest are sizes
 * of a cause. `twist` is the part of the spin bias that the named motors do not make: the size of a spin pair beside
 * them, or what they leave; where no motor is named, the whole bias is that and is told once. The loss of a named motor, and the tilt of one motor where a spin pair
 * is a cause or may be one, hold in their intervals what a second cause takes and what loads in order differ by besides;
 * that of the loss does so without a baseline too, because nothing tells then what the aircraft brought along. `tilts`
 * are those of each motor if it is the tilted one.
 */
export function centreMeasures(of: ShiftOfFlight, verdict: Verdict) {
  const { layout, shares, measured, freedom } = of;
  const { shift, covariance } = measured;
  const { pattern, besides, motors, alternatives } = verdict;
  const reach = reachOf(layout);
  const quantile = studentTQuantile(0.975, freedom);
  const measuredAs = (k: number, unit: string, scale = 1): Estimate =>
    estimate({ value: scale * shift[k]!, half: scale * quantile * Math.sqrt(covariance[4 * k]!) }, unit);
  const whole = { value: shift[2], half: quantile * Math.sqrt(covariance[8]!) };
  const twist = pattern === "spin-pair" && besides === null ? null : twistOf(of, verdict);
  const isCause = pattern === "spin-pair" || besides === "spin-pair";
  const bias = besides === null || twist === null ? whole : twist;
  const tilt =
    layout.isTorqueKnown && (isCause || alternatives.includes("spin-pair"))
      ? tiltOfOneMotor(layout, shares, bias.value, bias.half)
      : null;
  return {
    measures: {
      "cg-forward": measuredAs(0, "m", reach),
      "cg-right": measuredAs(1, "m", reach),
      "spin-bias": estimate(whole, "1"),
      ...(twist !== null && motors.length > 0 && { twist: estimate(twist, "1") }),
      ...(tilt !== null && { tilt: { value: tilt.value, unit: "rad", low: tilt.low, high: tilt.high } }),
      ...(verdict.pattern === "single-motor" && { loss: lossOf(of, verdict) }),
    },
    tilts: (tilt?.ofEach ?? []).flatMap((one, i): MotorEstimate[] =>
      one === null ? [] : [{ motor: i + 1, ...one, unit: "rad" }],
    ),
  };
}

const estimate = ({ value, half }: SizeOfUnknown, unit: string): Estimate => ({
  value,
  unit,
  low: value - half,
  high: value + half,
});

/**
 * The part of the spin bias that the other cause does not make. Of two causes the spin pair's unknown is the first or
 * the last; of one that is no spin pair the part is an unknown of its own.
 */
function twistOf(of: ShiftOfFlight, { besides, explanation }: Verdict): SizeOfUnknown {
  const { directions, spread, pattern } = explanation;
  if (besides === null) {
    const withTwist = { directions: [...directions, SPIN_ALONE], spread: [...spread, 0] };
    return sizeOf(of, withTwist, directions.length, scatter(of));
  }
  return sizeOf(of, explanation, pattern === "spin-pair" ? 0 : directions.length - 1, scatter(of));
}

/**
 * The loss of the one motor that the verdict names. Of its demand the part `loss` makes no thrust, so the centre of the
 * demands lies off the centre of the thrusts by loss x share x (arm - that centre), whatever way the controller shared
 * out the rest: exact for any number of motors. The centre of the thrusts is the baseline's; without one it counts as
 * the middle, and what aircraft in order are off by widens the interval.
 */
function lossOf(of: ShiftOfFlight, { motors, besides, explanation }: Verdict): Estimate {
  const motor = motors[0]!;
  const noise = besides === null && of.moved !== null ? of.measured.covariance : scatter(of, motor);
  const { value, half } = sizeOf(of, explanation, 0, noise);
  // The direction is for the share that the motor would carry in order.
  const scale = of.layout.healthy[motor - 1]! / of.shares[motor - 1]!;
  return estimate({ value: scale * value, half: scale * half }, "1");
}

const sizeOf = (
  { measured: { shift, covariance }, freedom }: ShiftOfFlight,
  explanation: Pick<Verdict["explanation"], "directions" | "spread">,
  k: number,
  noise: Float64Array,
) => sizeOfUnknown(explanation, k, shift, covariance, noise, freedom);

/** Covariance of the shift with what loads in order differ by, one motor's own part left out where it is asked for. */
const scatter = ({ layout, measured, moved }: ShiftOfFlight, except?: number) =>
  withTolerance(layout, measured.covariance, moved === null ? BETWEEN_AIRCRAFT : BETWEEN_FLIGHTS, {
    except,
    moved: moved ?? undefined,
  });
