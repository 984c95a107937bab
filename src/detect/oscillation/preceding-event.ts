import type { Axis } from "../../aircraft/index.ts";
import { channelOf, commandedMotors, commandLimits, type Flight, type Phase } from "../../flight/index.ts";
import type { Series } from "../../log/channel.ts";
import type { Estimate } from "../evidence.ts";
import { unwrapped } from "./unwrapped.ts";

/** What happened last before an oscillation began. */
export interface PrecedingEvent {
  readonly kind: "motor-ceiling" | "motor-floor" | "set-point-step" | "mode-change" | "gap";
  /** s, and s from then to the onset */
  readonly at: number;
  readonly before: number;
  readonly motor?: number;
}

/** s before the onset within which an event may have begun it: a swing takes its first cycles to be seen */
const REACH = 2;
const REACH_CYCLES = 3;
/** s at a limit again within this time is no news */
const QUIET = 2;
/** rad (5 deg) within s: a set point that moves as much as that at once is a step */
const STEP = { size: 0.087, time: 0.25 };

/** A set point that moves to and fro by more than this many steps is part of the swing. */
const FEW_STEPS = 2;

/** The last event before an onset, or within its interval; null where there is none, or the log begins there. */
export function precedingEvent(flight: Flight, axis: Axis, onset: Estimate, frequency: number): PrecedingEvent | null {
  const from = onset.value - Math.max(REACH, REACH_CYCLES / frequency);
  if (onset.low === undefined) return null;
  const asked = channelOf(flight, `attitude.${axis}.setpoint`);
  const within = (at: number) => at >= from && at <= onset.value;
  const steps = (asked ? stepsOf(unwrapped(asked).series) : []).filter(within);
  const events = [
    ...limitEvents(flight, from, onset.value),
    ...(steps.length > FEW_STEPS ? [] : steps.map((at) => ({ kind: "set-point-step" as const, at }))),
    ...modeChanges(flight).map((at) => ({ kind: "mode-change" as const, at })),
    ...(channelOf(flight, `rate.${axis}.measured`)?.gaps ?? []).map(({ end }) => ({ kind: "gap" as const, at: end })),
  ].filter(({ at }) => within(at));
  const last = events.reduce<(typeof events)[number] | null>((a, b) => (a === null || b.at > a.at ? b : a), null);
  return last && { ...last, before: onset.value - last.at };
}

/** The phase that an onset lies in. */
export function phaseAt({ phases }: Flight, at: number): Phase | null {
  return phases.find(({ start, end }) => at >= start && at < end) ?? null;
}

/** When a motor first came to a limit of the aircraft file within a time. */
function limitEvents(flight: Flight, from: number, to: number) {
  const limits = commandLimits(flight.log, flight.aircraft);
  if (limits === null || limits.from !== "aircraft") return [];
  return commandedMotors(flight).flatMap((motor) => {
    const { time, values } = channelOf(flight, `motor.${motor}.command`)!.series;
    const events: { kind: "motor-ceiling" | "motor-floor"; at: number; motor: number }[] = [];
    const last = { "motor-ceiling": Number.NEGATIVE_INFINITY, "motor-floor": Number.NEGATIVE_INFINITY };
    for (let i = 0; i < time.length && time[i]! <= to; i++) {
      if (time[i]! < from - QUIET) continue;
      const kind = values[i]! >= limits.max ? "motor-ceiling" : values[i]! <= limits.idle ? "motor-floor" : null;
      if (kind === null) continue;
      if (time[i]! - last[kind] > QUIET && time[i]! >= from) events.push({ kind, at: time[i]!, motor });
      last[kind] = time[i]!;
    }
    return events;
  });
}

function stepsOf({ time, values }: Series): number[] {
  const steps: number[] = [];
  let back = 0;
  for (let i = 0; i < time.length; i++) {
    while (time[i]! - time[back]! > STEP.time) back++;
    const isStep = Math.abs(values[i]! - values[back]!) >= STEP.size;
    if (isStep && (steps.length === 0 || time[i]! - steps.at(-1)! > 2 * STEP.time)) steps.push(time[back]!);
  }
  return steps;
}

function modeChanges({ log: { mode } }: Flight): number[] {
  if (mode === null) return [];
  return [...mode.time].filter((_, i) => i > 0 && mode.values[i] !== mode.values[i - 1]);
}
