import { type CommandRange, commandFraction, thrustShare } from "../aircraft/index.ts";
import { channelOf, commandedMotors, commandLimits, type Flight, type Phase } from "../flight/index.ts";
import { mean, quantiles } from "../signal/index.ts";
import { valuesWithin } from "./air-time.ts";
import type { Detector, EvidenceBase } from "./evidence.ts";
import { FORECAST_LEVEL, forecastHeadroom, type HeadroomForecast, type HeadroomPoint } from "./headroom-forecast.ts";

/** How much of its command range a motor left unused above and below. */
export interface MotorHeadroomEvidence extends EvidenceBase {
  readonly kind: "motor-headroom";
  readonly motor: number;
  readonly limitsFrom: "aircraft" | "data";
  /** command at these shares of the samples in the air, in command fraction */
  readonly distribution: { readonly p1: number; readonly p50: number; readonly p99: number };
  /** thrust left in hover and on each steady leg, in order of time */
  readonly points: readonly HeadroomPoint[];
  /** the limit that is met first with growing speed, where that can be foretold */
  readonly forecast: HeadroomForecast | null;
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
      const share = (command: number) => thrustShare(curve, Math.min(1, commandFraction(range, command)));
      const points = pointsOf(flight, motor, { share, floor: share(limits.idle) });
      const forecast = limits.from === "aircraft" ? firstMet(points) : null;
      const [p1, p50, p99] = quantiles(commands, [0.01, 0.5, 0.99]).map((c) => commandFraction(range, c));
      return [
        {
          kind: "motor-headroom",
          motor,
          start: flight.airborne[0]!.start,
          end: flight.airborne.at(-1)!.end,
          limitsFrom: limits.from,
          distribution: { p1: p1!, p50: p50!, p99: p99! },
          points,
          forecast,
          confidence: limits.from === "aircraft" ? 0.99 : 0.7,
          measures: {
            above: { value: 1 - p99!, unit: "1" },
            below: { value: p1! - floor, unit: "1" },
            "thrust-above": { value: 1 - thrustShare(curve, p99!), unit: "1" },
            mean: { value: commandFraction(range, mean(commands)), unit: "1" },
            ...(forecast && {
              "speed-at-limit": {
                value: forecast.speed,
                unit: "m/s",
                low: forecast.low,
                ...(forecast.high !== undefined && { high: forecast.high }),
                level: FORECAST_LEVEL,
              },
            }),
          },
        },
      ];
    });
  },
};

/** s; a shorter leg has no percentiles worth the name, and a shorter hover is the turn between two legs */
const SHORTEST_LEG = 3;
const SHORTEST_HOVER = 6;

function pointsOf(
  flight: Flight,
  motor: number,
  thrust: { share: (command: number) => number; floor: number },
): HeadroomPoint[] {
  const { series } = channelOf(flight, `motor.${motor}.command`)!;
  return flight.phases.filter(isSteady).flatMap((phase) => {
    const commands = valuesWithin(series, [phase]);
    if (commands.length === 0) return [];
    const [low, high] = quantiles(commands, [0.01, 0.99]);
    const [above, below] = [1 - thrust.share(high!), thrust.share(low!) - thrust.floor];
    return [{ speed: phase.kind === "hover" ? 0 : phase.speed!, step: phase.step, above, below }];
  });
}

function isSteady({ kind, start, end, speed, step }: Phase): boolean {
  if (kind === "hover") return end - start >= SHORTEST_HOVER;
  return kind === "cruise" && speed !== null && step !== null && end - start >= SHORTEST_LEG;
}

function firstMet(points: readonly HeadroomPoint[]): HeadroomForecast | null {
  const [one, other] = [forecastHeadroom(points, "ceiling"), forecastHeadroom(points, "floor")];
  if (one === null || other === null) return one ?? other;
  return one.speed <= other.speed ? one : other;
}
