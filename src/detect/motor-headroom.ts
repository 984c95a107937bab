import { type CommandRange, commandFraction, thrustShare } from "../aircraft/index.ts";
import { channelOf, commandedMotors, commandLimits, type Flight, onceAFlight } from "../flight/index.ts";
import type { Span } from "../log/index.ts";
import { mean, quantiles } from "../signal/index.ts";
import { valuesWithin } from "./air-time.ts";
import type { Detector, EvidenceBase } from "./evidence.ts";
import { FORECAST_LEVEL, forecastHeadroom, type HeadroomForecast, type HeadroomPoint } from "./headroom-forecast.ts";
import { loadPieces, type SteadyPiece, steadyPieces } from "./steady-pieces.ts";
import { thinned } from "./thinned.ts";
import { forecastVoltage, type VoltageForecast } from "./voltage-forecast.ts";
import { type VoltageLaw, voltageLaw } from "./voltage-law.ts";

/** How much of its command range a motor left unused above and below. */
export interface MotorHeadroomEvidence extends EvidenceBase {
  readonly kind: "motor-headroom";
  readonly motor: number;
  readonly limitsFrom: "aircraft" | "data";
  /** command at these shares of the samples in the air, in command fraction */
  readonly distribution: { readonly p1: number; readonly p50: number; readonly p99: number };
  readonly trend: HeadroomTrend;
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
      const trend = headroomTrend(flight, motor)!;
      const { forecast, voltageForecast } = trend;
      const [p1, p50, p99] = quantiles(thinned(commands), [0.01, 0.5, 0.99]).map((c) => commandFraction(range, c));
      return [
        {
          kind: "motor-headroom",
          motor,
          start: flight.airborne[0]!.start,
          end: flight.airborne.at(-1)!.end,
          limitsFrom: limits.from,
          distribution: { p1: p1!, p50: p50!, p99: p99! },
          trend,
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
            ...(voltageForecast && {
              "voltage-at-limit": {
                value: voltageForecast.voltage,
                unit: "V",
                ...(voltageForecast.low !== undefined && { low: voltageForecast.low }),
                high: voltageForecast.high,
                level: FORECAST_LEVEL,
              },
            }),
          },
        },
      ];
    });
  },
};

/** Thrust left in one steady piece of flight. */
export interface TrendPoint extends HeadroomPoint {
  /** V, mean, null where not logged */
  readonly voltage: number | null;
  /** thrust left to the ceiling as it was, at that voltage */
  readonly aboveThen: number;
}

/** Thrust left to a motor in steady flight, and where its trends with speed and with voltage lead. */
export interface HeadroomTrend {
  /**
   * thrust left in hover and on each steady leg, in order of time; where `law` is known, as it would be at `voltage`,
   * so that speeds flown on a full and on an emptier battery compare
   */
  readonly points: readonly TrendPoint[];
  /** V that the points hold at: the mean of the fastest step; null where they are as measured */
  readonly voltage: number | null;
  readonly law: VoltageLaw | null;
  /** the limit that is met first with growing speed, where that can be foretold */
  readonly forecast: HeadroomForecast | null;
  /** the voltage at which the ceiling is met, where that can be foretold */
  readonly voltageForecast: VoltageForecast | null;
}

const trendsOf = onceAFlight(
  (flight) => new Map(commandedMotors(flight).map((motor) => [motor, findTrend(flight, motor)])),
);

/** The trends of a motor's headroom; null without a motor command. */
export const headroomTrend = (flight: Flight, motor: number): HeadroomTrend | null =>
  trendsOf(flight).get(motor) ?? null;

function findTrend(flight: Flight, motor: number): HeadroomTrend | null {
  const limits = commandLimits(flight.log, flight.aircraft);
  const share = thrustShareOf(flight);
  if (limits === null || share === null) return null;
  const { pieces, law } = steadyDemand(flight);
  const fastest = pieces.reduce((most, { speed }) => Math.max(most, speed), 0);
  const volts = pieces.filter(({ speed }) => speed >= 0.9 * fastest).flatMap(({ voltage }) => voltage ?? []);
  const voltage = law === null ? null : mean(Float64Array.from(volts));
  const measured = pieces.flatMap((piece) => {
    const ends = thrustEnds(flight, motor, piece);
    return ends === null ? [] : [{ piece, ...ends }];
  });
  const points = measured.map(({ piece: { speed, step, way, voltage: own }, low, high }) => {
    const factor = law === null ? 1 : (own! / voltage!) ** law.exponent;
    const [above, below] = [1 - high * factor, low * factor - share(limits.idle)];
    return { speed, step, way, voltage: own, above, below, aboveThen: 1 - high };
  });
  const byVoltage = measured.map(({ piece, high }) => ({ ...piece, voltage: piece.voltage!, above: 1 - high }));
  const isKnown = limits.from === "aircraft";
  return {
    points,
    voltage,
    law,
    forecast: isKnown ? firstMet(points) : null,
    voltageForecast: isKnown ? forecastVoltage(byVoltage, law) : null,
  };
}

/** Steady pieces, and how the demand on all motors together goes with voltage in them. */
const steadyDemand = onceAFlight((flight): { pieces: readonly SteadyPiece[]; law: VoltageLaw | null } => {
  const pieces = steadyPieces(flight);
  if (pieces.some(({ voltage }) => voltage === null)) return { pieces, law: null };
  const share = thrustShareOf(flight)!;
  const series = commandedMotors(flight).map((motor) => channelOf(flight, `motor.${motor}.command`)!.series);
  const carried = loadPieces(flight);
  const demands = carried.map((piece) => {
    const logged = series.map((one) => thinned(valuesWithin(one, [piece]))).filter(({ length }) => length > 0);
    return logged.reduce((sum, commands) => sum + meanOf(commands, share), 0) / logged.length;
  });
  return { pieces, law: voltageLaw(carried, demands) };
});

function meanOf(values: Float64Array, measure: (value: number) => number): number {
  let sum = 0;
  for (let i = 0; i < values.length; i++) sum += measure(values[i]!);
  return sum / values.length;
}

/** Thrust at a command over the largest thrust; null without a command range. */
function thrustShareOf(flight: Flight): ((command: number) => number) | null {
  const limits = commandLimits(flight.log, flight.aircraft);
  if (limits === null) return null;
  const range: CommandRange = { unit: "", ...limits };
  const curve = curveOf(flight);
  return (command) => thrustShare(curve, Math.min(1, commandFraction(range, command)));
}

/** Thrust left to a motor in one stretch, beyond the 99th and 1st percentile of its command; null without samples. */
export function headroomOf(flight: Flight, motor: number, span: Span): Pick<HeadroomPoint, "above" | "below"> | null {
  const limits = commandLimits(flight.log, flight.aircraft);
  const ends = thrustEnds(flight, motor, span);
  if (limits === null || ends === null) return null;
  return { above: 1 - ends.high, below: ends.low - thrustShareOf(flight)!(limits.idle) };
}

/** Thrust shares that a motor was asked for at the 1st and 99th percentile of a stretch. */
function thrustEnds(flight: Flight, motor: number, span: Span): { low: number; high: number } | null {
  const channel = channelOf(flight, `motor.${motor}.command`);
  const share = thrustShareOf(flight);
  if (share === null || channel === undefined) return null;
  const commands = valuesWithin(channel.series, [span]);
  if (commands.length === 0) return null;
  const [low, high] = quantiles(thinned(commands), [0.01, 0.99]);
  return { low: share(low!), high: share(high!) };
}

const curveOf = ({ aircraft }: Flight) =>
  aircraft?.thrust ?? { exponent: null, max: null, torqueRatio: null, timeConstant: null };

function firstMet(points: readonly HeadroomPoint[]): HeadroomForecast | null {
  const [one, other] = [forecastHeadroom(points, "ceiling"), forecastHeadroom(points, "floor")];
  if (one === null || other === null) return one ?? other;
  return one.speed <= other.speed ? one : other;
}
