import { studentTQuantile } from "../../signal/index.ts";
import type { Estimate, MotorEstimate } from "../evidence.ts";
import { reachOf, type Shift } from "./imbalance-patterns.ts";
import type { Layout } from "./load-shares.ts";
import type { MeasuredShift } from "./shift-of.ts";
import { tiltOfOneMotor } from "./tilt-of-one-motor.ts";
import type { Verdict } from "./verdict.ts";

/**
 * The numbers of a shift: centre of gravity in m, spin bias, the tilt of one motor that would make it (less what a weak
 * motor besides makes of it), and the loss of the motor where the verdict names one. `tilts` are those of each motor
 * if it is the tilted one.
 * @param shares thrust of each motor over the total, in the flight whose shift it is
 */
export function centreMeasures(
  layout: Layout,
  shares: Float64Array,
  { shift, covariance }: MeasuredShift,
  verdict: Verdict,
  freedom: number,
) {
  const reach = reachOf(layout);
  const half = studentTQuantile(0.975, freedom);
  const interval = (value: number, sd: number, unit: string): Estimate => ({
    value,
    unit,
    low: value - half * sd,
    high: value + half * sd,
  });
  const sd = (k: number) => Math.sqrt(covariance[4 * k]!);
  const single = verdict.pattern === "single-motor" ? verdict.motors[0] : undefined;
  const beneath = verdict.direction === null ? 0 : verdict.spinBeneath * sizeAlong(verdict.direction, shift);
  const tilt = layout.isTorqueKnown ? tiltOfOneMotor(layout, shares, shift[2] - beneath, half * sd(2)) : null;
  return {
    measures: {
      "cg-forward": interval(shift[0] * reach, sd(0) * reach, "m"),
      "cg-right": interval(shift[1] * reach, sd(1) * reach, "m"),
      "spin-bias": interval(shift[2], sd(2), "1"),
      ...(tilt !== null && { tilt: { value: tilt.value, unit: "rad", low: tilt.low, high: tilt.high } }),
      ...(single !== undefined && {
        loss: lossOf(layout, shares, shift, covariance, verdict.direction!, single, half),
      }),
    },
    tilts: (tilt?.ofEach ?? []).flatMap((one, i): MotorEstimate[] =>
      one === null ? [] : [{ motor: i + 1, ...one, unit: "rad" }],
    ),
  };
}

/** How much of a direction a shift holds: the least-squares size. */
function sizeAlong(direction: Shift, shift: Shift): number {
  const power = direction.reduce((sum, value) => sum + value * value, 0);
  return direction.reduce((sum, value, k) => sum + value * shift[k]!, 0) / power;
}

/**
 * The loss of one motor whose own direction the shift follows. Of its demand the part `loss` makes no thrust, so the
 * centre of the demands lies off the centre of the thrusts by loss x share x arm, whatever way the controller shared
 * out the rest: exact for any number of motors.
 */
function lossOf(
  layout: Layout,
  shares: Float64Array,
  shift: Shift,
  covariance: Float64Array,
  direction: Shift,
  motor: number,
  half: number,
): Estimate {
  const power = direction.reduce((sum, value) => sum + value * value, 0);
  const along = sizeAlong(direction, shift);
  let spread = 0;
  for (let at = 0; at < 9; at++) spread += direction[Math.floor(at / 3)]! * direction[at % 3]! * covariance[at]!;
  const reach = (half * Math.sqrt(spread)) / power;
  // The direction is for the share that the motor would carry in order.
  const scale = layout.healthy[motor - 1]! / shares[motor - 1]!;
  return { value: scale * along, unit: "1", low: scale * (along - reach), high: scale * (along + reach) };
}
