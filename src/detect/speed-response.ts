import { channelOf, type Flight } from "../flight/index.ts";
import type { Channel } from "../log/channel.ts";
import {
  crossCorrelationDelay,
  median,
  medianAbsoluteDeviation,
  quantile,
  standardDeviation,
} from "../signal/index.ts";
import { alignChannels } from "./align-channels.ts";
import { motorThrusts } from "./motor-thrusts.ts";

/** A motor whose rotor speed or current stands apart from the others' at the same command. */
export interface SpeedResponse {
  readonly motor: number;
  readonly sign: "short" | "slow";
  readonly by: "speed" | "current";
  /** s from which on it is short, where it is not so from the beginning */
  readonly start: number | null;
  /** share of the speed (or current) that is missing */
  readonly deficit?: { readonly value: number; readonly low: number; readonly high: number };
  /** s by which it follows its command */
  readonly delay?: { readonly value: number; readonly low: number; readonly high: number };
  readonly usual: number | null;
}

/** A rotor this much slower than its command explains costs a tenth of the thrust (thrust goes with speed squared). */
const LEAST_DEFICIT = 0.05;
/** s by which a motor has to lag behind the others, and how many times as late it has to be */
const LEAST_LAG = 0.03;
const LEAST_RATIO = 2;
/** s cells of the ratio of speed to command */
const CELL = 1;

/**
 * Compares the motors with each other: rotor speed goes with the square root of thrust and so with a power of the
 * command fraction, current with thrust to the power 3/2 (momentum theory), at factors that are the same for like
 * motors. What a motor's factor is below the middle one is its deficit; how far its speed trails its command, against
 * the middle of the others, is its delay.
 */
export function speedResponses(flight: Flight): SpeedResponse[] {
  const motors = motorThrusts(flight);
  if (motors === null) return [];
  for (const by of ["speed", "current"] as const) {
    const channels = motors.thrusts.map((_, i) => channelOf(flight, `motor.${i + 1}.${by}`));
    if (channels.every((channel) => channel !== undefined)) return compare(flight, channels as Channel[], by);
  }
  return [];
}

interface Response {
  readonly motor: number;
  /** ratio of what is measured to what the command explains, a cell a second, with the times of the cells */
  readonly ratios: Float64Array;
  readonly times: Float64Array;
  readonly delay: { readonly value: number; readonly low: number; readonly high: number } | null;
}

function compare(flight: Flight, channels: readonly Channel[], by: SpeedResponse["by"]): SpeedResponse[] {
  const responses = channels.map((channel, i) => responseOf(flight, channel, i, by));
  const factors = responses.map(({ ratios }) => (ratios.length === 0 ? Number.NaN : median(ratios)));
  if (factors.some(Number.isNaN)) return [];
  const usual = median(Float64Array.from(factors));
  return responses.flatMap((response, i) => {
    const others = responses.filter((_, k) => k !== i);
    return [...shortOf(response, usual, by), ...slowOf(response, others, by)];
  });
}

function shortOf({ motor, ratios, times }: Response, usual: number, by: SpeedResponse["by"]): SpeedResponse[] {
  const missing = ratios.map((ratio) => 1 - ratio / usual);
  // From cell to cell, so that the fall itself does not count as noise.
  const noise = medianAbsoluteDeviation(missing.subarray(1).map((value, k) => value - missing[k]!)) / Math.SQRT2;
  const isShort = (value: number) => value > Math.max(LEAST_DEFICIT, 3 * noise);
  const after = missing.findIndex((_, k) => {
    const next = missing.slice(k, k + 3);
    return next.length === 3 && next.every(isShort);
  });
  if (after < 0) return [];
  const rest = missing.slice(after);
  const value = median(rest);
  if (!isShort(value)) return [];
  const half = (1.96 * medianAbsoluteDeviation(rest)) / Math.sqrt(rest.length);
  const deficit = { value, low: value - half, high: value + half };
  return [{ motor, sign: "short", by, start: after === 0 ? null : times[after]!, deficit, usual: null }];
}

function slowOf({ motor, delay }: Response, others: readonly Response[], by: SpeedResponse["by"]): SpeedResponse[] {
  const delays = others.flatMap((other) => other.delay?.value ?? []);
  if (delay === null || delays.length < 2) return [];
  const usual = median(Float64Array.from(delays));
  if (delay.low < Math.max(usual + LEAST_LAG, LEAST_RATIO * usual)) return [];
  return [{ motor, sign: "slow", by, start: null, delay, usual }];
}

function responseOf(flight: Flight, channel: Channel, index: number, by: SpeedResponse["by"]): Response {
  const { exponent } = flight.aircraft!.thrust;
  const { command: range } = flight.aircraft!;
  const power = ((exponent ?? 2) / 2) * (by === "speed" ? 1 : 3);
  const command = channelOf(flight, `motor.${index + 1}.command`)!;
  const { time, values, stretches } = alignChannels([channel, command], flight.airborne);
  const [measured, commands] = [values[0]!, values[1]!];
  const expected = commands.map((value) => Math.max(0, (value - range.min) / (range.max - range.min)) ** power);
  const ratios: number[] = [];
  const times: number[] = [];
  for (const { from, to } of stretches) {
    for (let first = from; first < to; ) {
      let last = first;
      let [sum, explained] = [0, 0];
      while (last < to && time[last]! < time[first]! + CELL) {
        sum += measured[last]!;
        explained += expected[last]!;
        last++;
      }
      if (last - first > 1 && explained > 0) {
        ratios.push(sum / explained);
        times.push(time[first]!);
      }
      first = last;
    }
  }
  return {
    motor: index + 1,
    ratios: Float64Array.from(ratios),
    times: Float64Array.from(times),
    delay: delayOf(expected, measured, channel.rate, stretches),
  };
}

const LEAST_CORRELATION = 0.6;
const LONGEST_DELAY = 1;

function delayOf(
  expected: Float64Array,
  measured: Float64Array,
  rate: number,
  stretches: readonly { from: number; to: number }[],
): Response["delay"] {
  if (stretches.length === 0) return null;
  const { from, to } = stretches.reduce((best, one) => (one.to - one.from > best.to - best.from ? one : best));
  const [asked, given] = [expected.slice(from, to), measured.slice(from, to)];
  if (to - from < 5 * rate || to - from < 50 || standardDeviation(asked) === 0 || standardDeviation(given) === 0)
    return null;
  const { delay, standardError, correlation } = crossCorrelationDelay(asked, given, rate, { maxDelay: LONGEST_DELAY });
  if (correlation < LEAST_CORRELATION || delay < 0 || quantile(asked, 0.99) <= 0) return null;
  return { value: delay, low: delay - 1.96 * standardError, high: delay + 1.96 * standardError };
}
