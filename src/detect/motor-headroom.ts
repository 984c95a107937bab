import { type CommandRange, commandFraction, thrustShare } from "../aircraft/index.ts";
import { channelOf, commandedMotors, commandLimits, type Flight, type Phase } from "../flight/index.ts";
import type { Span } from "../log/index.ts";
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
    const curve = curveOf(flight);
    return commandedMotors(flight).flatMap((motor): MotorHeadroomEvidence[] => {
      const commands = valuesWithin(channelOf(flight, `motor.${motor}.command`)!.series, flight.airborne);
      if (commands.length === 0) return [];
      const { points, forecast } = headroomTrend(flight, motor)!;
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

/** Thrust left to a motor in hover and on each steady leg, and where the trend leads; null without a motor command. */
export function headroomTrend(
  flight: Flight,
  motor: number,
): Pick<MotorHeadroomEvidence, "points" | "forecast"> | null {
  const limits = commandLimits(flight.log, flight.aircraft);
  const channel = channelOf(flight, `motor.${motor}.command`);
  if (limits === null || channel === undefined) return null;
  const points = flight.phases.filter(isSteady).flatMap((phase): HeadroomPoint[] => {
    const left = headroomOf(flight, motor, phase);
    return left === null ? [] : [{ speed: phase.kind === "hover" ? 0 : phase.speed!, step: phase.step, ...left }];
  });
  return { points, forecast: limits.from === "aircraft" ? firstMet(points) : null };
}

/** Thrust left to a motor in one stretch, beyond the 99th and 1st percentile of its command; null without samples. */
export function headroomOf(flight: Flight, motor: number, span: Span): Pick<HeadroomPoint, "above" | "below"> | null {
  const limits = commandLimits(flight.log, flight.aircraft);
  const channel = channelOf(flight, `motor.${motor}.command`);
  if (limits === null || channel === undefined) return null;
  const commands = valuesWithin(channel.series, [span]);
  if (commands.length === 0) return null;
  const range: CommandRange = { unit: "", ...limits };
  const share = (command: number) => thrustShare(curveOf(flight), Math.min(1, commandFraction(range, command)));
  const [low, high] = quantiles(commands, [0.01, 0.99]);
  return { above: 1 - share(high!), below: share(low!) - share(limits.idle) };
}

const curveOf = ({ aircraft }: Flight) =>
  aircraft?.thrust ?? { exponent: null, max: null, torqueRatio: null, timeConstant: null };

function isSteady({ kind, start, end, speed, step }: Phase): boolean {
  if (kind === "hover") return end - start >= SHORTEST_HOVER;
  return kind === "cruise" && speed !== null && step !== null && end - start >= SHORTEST_LEG;
}

function firstMet(points: readonly HeadroomPoint[]): HeadroomForecast | null {
  const [one, other] = [forecastHeadroom(points, "ceiling"), forecastHeadroom(points, "floor")];
  if (one === null || other === null) return one ?? other;
  return one.speed <= other.speed ? one : other;
}
