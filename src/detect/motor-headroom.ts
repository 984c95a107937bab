import { type CommandRange, commandFraction, thrustShare } from "../aircraft/index.ts";
import { channelOf, commandedMotors, commandLimits } from "../flight/index.ts";
import { mean, quantiles } from "../signal/index.ts";
import { valuesWithin } from "./air-time.ts";
import type { Detector, EvidenceBase } from "./evidence.ts";

/** How much of its command range a motor left unused above and below. */
export interface MotorHeadroomEvidence extends EvidenceBase {
  readonly kind: "motor-headroom";
  readonly motor: number;
  readonly limitsFrom: "aircraft" | "data";
  /** command at these shares of the samples in the air, in command fraction */
  readonly distribution: { readonly p1: number; readonly p50: number; readonly p99: number };
}

/**
 * Measures, per motor, what is left of the command range beyond the 99th percentile (to the ceiling) and below the 1st
 * (to the armed floor) of its command in the air. The tails are left out so that a single logged spike does not decide.
 */
export const motorHeadroom: Detector<MotorHeadroomEvidence> = {
  kind: "motor-headroom",
  missing(flight) {
    const limits = commandLimits(flight.log, flight.aircraft);
    if (limits === null) return ["motor.N.command"];
    return limits.from === "aircraft" || limits.topIsHeld ? [] : ["aircraft file: command"];
  },
  detect(flight) {
    const limits = commandLimits(flight.log, flight.aircraft)!;
    const range: CommandRange = { unit: "", ...limits };
    const floor = commandFraction(range, limits.idle);
    const curve = flight.aircraft?.thrust ?? { exponent: null, max: null, torqueRatio: null, timeConstant: null };
    return commandedMotors(flight).flatMap((motor): MotorHeadroomEvidence[] => {
      const commands = valuesWithin(channelOf(flight, `motor.${motor}.command`)!.series, flight.airborne);
      if (commands.length === 0) return [];
      const [p1, p50, p99] = quantiles(commands, [0.01, 0.5, 0.99]).map((c) => commandFraction(range, c));
      return [
        {
          kind: "motor-headroom",
          motor,
          start: flight.airborne[0]!.start,
          end: flight.airborne.at(-1)!.end,
          limitsFrom: limits.from,
          distribution: { p1: p1!, p50: p50!, p99: p99! },
          confidence: limits.from === "aircraft" ? 0.99 : 0.7,
          measures: {
            above: { value: 1 - p99!, unit: "1" },
            below: { value: p1! - floor, unit: "1" },
            "thrust-above": { value: 1 - thrustShare(curve, p99!), unit: "1" },
            mean: { value: commandFraction(range, mean(commands)), unit: "1" },
          },
        },
      ];
    });
  },
};
