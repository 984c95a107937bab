import { WRENCH } from "../aircraft/index.ts";
import { channelOf, type Flight } from "../flight/index.ts";
import type { Channel } from "../log/channel.ts";
import { pseudoInverse, standardDeviation, studentTQuantile } from "../signal/index.ts";
import { alignChannels } from "./align-channels.ts";
import { type MotorThrusts, motorThrusts } from "./motor-thrusts.ts";

/** A motor that from one moment on gives less thrust than its command asks. */
export interface ThrustLoss {
  readonly motor: number;
  /** s */
  readonly at: number;
  /** share of its thrust that was lost, with a 95 % interval */
  readonly deficit: number;
  readonly low: number;
  readonly high: number;
  readonly confidence: number;
  /** whether yaw speaks for this motor too; false where what turns the nose changed meanwhile, which hides its part */
  readonly isYawKnown: boolean;
}

/** s, cells in which thrusts are averaged */
const CELL = 0.1;
/** s compared before and after; s between them in which the loops settle anew */
const BEFORE = 2;
const AFTER = 2;
const SETTLING = 1;
/** A smaller loss is found as an imbalance, without a moment at which it began. */
const LEAST_DEFICIT = 0.1;
/** Share of the change of all commands that one motor's loss has to explain: manoeuvres change several motors. */
const LEAST_EXPLAINED = 0.8;
/** Without yaw a centre of gravity that shifts explains two thirds of it, so more is asked for. */
const MORE_EXPLAINED = 0.9;
/** By how much less of it the next motor's loss has to explain. */
const LEAST_APART = 0.05;
/** Scatter of what turns the nose, over what the loss would change in it: below this yaw speaks for a loss, above that not against one. */
const KNOWN_BELOW = 0.5;
const HIDDEN_FROM = 0.75;
/** Part of the yaw that the loss would change, from which on yaw speaks for it. */
const LEAST_YAW = 0.5;
/** The step has to stand out of what the commands do anyway by so many standard errors. */
const LEAST_STANDING_OUT = 5;
/** s over which thrusts that go together from cell to cell count as one observation */
const MEMORY = 0.4;
/** Standard deviations of the turning before it that a knock has to stand out by; s over which it builds up. */
const KNOCK = 4;
const KNOCK_TIME = 0.06;
/** s before the step of the commands in which the knock can lie */
const LONGEST_WAIT = 1.2;

/**
 * Finds sudden losses of thrust by what they leave behind. When motor i loses a share of its thrust, the aircraft is
 * knocked towards it and the loops come to rest again only when the commands give the old lift and moments: the
 * commands have then changed by a multiple of one known pattern, the column of B+ B that belongs to motor i. For four
 * motors that is motor i alone. A manoeuvre has other patterns, and does not stay. Turning the nose changes the commands
 * too, and for long; so where the whole pattern finds nothing, what lift, roll and pitch ask for is looked at alone.
 *
 * The moment is the knock: the largest turning towards the motor in the second before the commands settle. Without the
 * knock, and so without logged rates, nothing is a loss: a load that is lifted off changes the commands alike.
 */
export function findThrustLosses(flight: Flight): ThrustLoss[] {
  const motors = motorThrusts(flight);
  if (motors === null) return [];
  const [before, after, gap] = [BEFORE, AFTER, SETTLING].map((seconds) => Math.round(seconds / CELL)) as [
    number,
    number,
    number,
  ];
  const windows = { before, after, gap };
  const patterns = patternsOf(motors);
  return motors.stretches.flatMap(({ from, to }) => {
    const whole = { ...cellsOf(motors, from, to), patterns, isWithoutYaw: false };
    const found = stepsIn(whole, windows);
    const others = stepsIn(withoutYaw(motors, whole), windows);
    // With less to tell by, what commands wander by chance is no loss.
    const apart = others.filter(
      ({ cell, low }) => low > 0 && found.every((one) => Math.abs(one.cell - cell) > gap + after),
    );
    return [...found, ...apart]
      .sort((a, b) => a.cell - b.cell)
      .flatMap(({ cell: _, standingOut: __, asked: ___, error: ____, ...loss }) => {
        const at = knockAt(flight, motors, loss);
        return at === null ? [] : [{ ...loss, at }];
      });
  });
}

/** Commands of one stretch as a motor's loss would show in them. */
interface View extends Cells {
  /** one a motor: the change of all commands that makes good for a newton lost there */
  readonly patterns: readonly Float64Array[];
  /** whether what turns the nose was taken out of commands and patterns */
  readonly isWithoutYaw: boolean;
}

/** The same commands with what turns the nose taken out of them, and out of the patterns. */
function withoutYaw({ effectiveness: { matrix: b } }: MotorThrusts, view: View): View {
  const inverse = pseudoInverse(b);
  const turning = Float64Array.from({ length: b.columns }, (_, i) => inverse.data[i * 4 + WRENCH.yaw]!);
  const size = square(turning);
  const share = (values: ArrayLike<number>) => (size > 0 ? along(turning, values) / size : 0);
  const cells = Float64Array.from({ length: view.count }, (_, cell) => share(view.thrusts.map((one) => one[cell]!)));
  return {
    ...view,
    thrusts: view.thrusts.map((thrust, i) => thrust.map((value, cell) => value - cells[cell]! * turning[i]!)),
    patterns: view.patterns.map((pattern) => {
      const part = share(pattern);
      return pattern.map((value, i) => value - part * turning[i]!);
    }),
    isWithoutYaw: true,
  };
}

function stepsIn(view: View, windows: Windows): Candidate[] {
  const { before, after, gap } = windows;
  const candidates: Candidate[] = [];
  for (let cell = before; cell + gap + after <= view.count; cell++) {
    const step = stepAt(view, cell, windows);
    if (step !== null) candidates.push({ ...step, cell, at: view.start + cell * CELL });
  }
  const kept = strongest(candidates, gap + after);
  if (kept.length === 0) return [];
  const cells = kept.map(({ cell }) => cell);
  return kept.map(widenedBy(wanderOf(view, cells, windows)));
}

interface Candidate extends ThrustLoss {
  readonly cell: number;
  readonly standingOut: number;
  /** what the motor is asked for after the step, and the standard error of the step, in the unit of the thrusts */
  readonly asked: number;
  readonly error: number;
}

/** How far the commands wander from window to window where no motor lost anything. */
interface Wander {
  readonly deviation: number;
  readonly degreesOfFreedom: number;
}

/**
 * Gusts outlast the windows, so the scatter within a window does not tell how far apart two windows are by chance.
 * The same comparison at all places that no step touches does: its root mean square, over all motors' patterns.
 */
function wanderOf(
  { thrusts, count, patterns }: View,
  steps: readonly number[],
  { before, after, gap }: Windows,
): Wander | null {
  const whole = before + gap + after;
  let [squares, places] = [0, 0];
  for (let cell = before; cell + gap + after <= count; cell++) {
    if (steps.some((step) => Math.abs(step - cell) < whole)) continue;
    const step = thrusts.map(
      (thrust) =>
        statistics(thrust, cell + gap, cell + gap + after).mean - statistics(thrust, cell - before, cell).mean,
    );
    places++;
    for (const pattern of patterns) squares += (along(pattern, step) / square(pattern)) ** 2 / patterns.length;
  }
  if (places === 0) return null;
  // Lift, roll, pitch and yaw wander by themselves; places nearer than a window's whole length share their data.
  const degreesOfFreedom = Math.max(1, Math.round(places / whole)) * Math.min(4, patterns.length);
  return { deviation: Math.sqrt(squares / places), degreesOfFreedom };
}

const widenedBy =
  (wander: Wander | null) =>
  (found: Candidate): Candidate => {
    const { deficit, asked, error } = found;
    const half =
      wander !== null && wander.deviation > error
        ? studentTQuantile(0.975, wander.degreesOfFreedom) * wander.deviation
        : 1.96 * error;
    return { ...found, low: Math.max(0, deficit - half / asked), high: Math.min(1, deficit + half / asked) };
  };

const along = (pattern: Float64Array, step: ArrayLike<number>) =>
  pattern.reduce((sum, part, k) => sum + part * step[k]!, 0);
const square = (pattern: Float64Array) => pattern.reduce((sum, part) => sum + part * part, 0);

interface Cells {
  readonly start: number;
  readonly count: number;
  /** one array a motor, mean thrust in each cell */
  readonly thrusts: readonly Float64Array[];
  /** the same as they were asked for, nothing taken out */
  readonly asked: readonly Float64Array[];
  /** yaw moment of all of them in each cell, and of a newton of each motor */
  readonly yaw: { readonly moments: Float64Array; readonly levers: Float64Array };
}

function cellsOf({ time, thrusts, effectiveness: { matrix: b } }: MotorThrusts, from: number, to: number): Cells {
  const start = time[from]!;
  const count = Math.max(0, Math.floor((time[to - 1]! - start) / CELL));
  const sums = thrusts.map(() => new Float64Array(count));
  const counts = new Float64Array(count);
  for (let i = from; i < to; i++) {
    const cell = Math.floor((time[i]! - start) / CELL);
    if (cell >= count) break;
    counts[cell] = counts[cell]! + 1;
    for (const [k, thrust] of thrusts.entries()) sums[k]![cell] = sums[k]![cell]! + thrust[i]!;
  }
  for (const sum of sums) {
    for (let cell = 0; cell < count; cell++) {
      sum[cell] = counts[cell]! > 0 ? sum[cell]! / counts[cell]! : (sum[cell - 1] ?? 0);
    }
  }
  const levers = b.data.subarray(WRENCH.yaw * b.columns, (WRENCH.yaw + 1) * b.columns);
  const moments = Float64Array.from({ length: count }, (_, cell) =>
    along(
      levers,
      sums.map((sum) => sum[cell]!),
    ),
  );
  return { start, count, thrusts: sums, asked: sums, yaw: { moments, levers } };
}

/** Change of all commands that makes good for a newton lost at each motor: columns of B+ B. */
function patternsOf({ effectiveness: { matrix: b } }: MotorThrusts): Float64Array[] {
  const inverse = pseudoInverse(b);
  return Array.from({ length: b.columns }, (_, motor) =>
    Float64Array.from({ length: b.columns }, (_, i) => {
      let sum = 0;
      for (let k = 0; k < 4; k++) sum += inverse.data[i * 4 + k]! * b.data[k * b.columns + motor]!;
      return sum;
    }),
  );
}

interface Windows {
  readonly before: number;
  readonly after: number;
  readonly gap: number;
}

function stepAt(
  { thrusts, asked: wanted, patterns, yaw, isWithoutYaw }: View,
  cell: number,
  { before, after, gap }: Windows,
) {
  const old = thrusts.map((thrust) => statistics(thrust, cell - before, cell));
  const fresh = thrusts.map((thrust) => statistics(thrust, cell + gap, cell + gap + after));
  const step = fresh.map(({ mean }, i) => mean - old[i]!.mean);
  const whole = step.reduce((sum, value) => sum + value * value, 0);
  const [best, second] = patterns
    .map((pattern, motor) => {
      const part = along(pattern, step);
      return { motor, size: part / square(pattern), explained: part > 0 ? (part * part) / square(pattern) / whole : 0 };
    })
    .sort((a, b) => b.explained - a.explained);
  if (best === undefined || !(best.explained >= LEAST_EXPLAINED)) return null;
  const { motor, size, explained } = best;
  // A load lifted at the motor changes lift, roll and pitch as its loss does, but not yaw.
  const [yawBefore, yawAfter] = [
    statistics(yaw.moments, cell - before, cell),
    statistics(yaw.moments, cell + gap, cell + gap + after),
  ];
  const yawOfLoss = size * yaw.levers[motor]!;
  const restless = Math.sqrt(Math.max(yawBefore.variance, yawAfter.variance)) / Math.abs(yawOfLoss);
  const isForLoss = (yawAfter.mean - yawBefore.mean) / yawOfLoss >= LEAST_YAW;
  if (!isForLoss && restless < HIDDEN_FROM) return null;
  const isYawKnown = isForLoss && restless < KNOWN_BELOW;
  if (isWithoutYaw) {
    // The two rotors of a coaxial pair differ by yaw alone.
    if (explained < MORE_EXPLAINED || explained - (second?.explained ?? 0) < LEAST_APART) return null;
  }
  // What is lost now is a share of what the motor is now asked for.
  const asked = statistics(wanted[motor]!, cell + gap, cell + gap + after).mean;
  const deficit = size / asked;
  const perWindow = AFTER / MEMORY;
  const change = Math.sqrt((old[motor]!.variance + fresh[motor]!.variance) / perWindow);
  const error = change / patterns[motor]![motor]!;
  const standingOut = size / Math.max(error, 1e-6 * asked);
  if (deficit < LEAST_DEFICIT || standingOut < LEAST_STANDING_OUT) return null;
  return {
    motor: motor + 1,
    deficit: Math.min(1, deficit),
    low: Math.max(0, (size - 1.96 * error) / asked),
    high: Math.min(1, (size + 1.96 * error) / asked),
    confidence: Math.min(0.95, explained),
    isYawKnown,
    standingOut,
    asked,
    error,
  };
}

function statistics(values: Float64Array, from: number, to: number): { mean: number; variance: number } {
  let sum = 0;
  for (let i = from; i < to; i++) sum += values[i]!;
  const mean = sum / (to - from);
  let squares = 0;
  for (let i = from; i < to; i++) squares += (values[i]! - mean) ** 2;
  return { mean, variance: squares / (to - from - 1) };
}

/** Of candidates nearer than `apart` cells the one that stands out most. */
function strongest<C extends { readonly cell: number; readonly standingOut: number }>(
  found: readonly C[],
  apart: number,
) {
  const kept: C[] = [];
  for (const one of [...found].sort((a, b) => b.standingOut - a.standingOut)) {
    if (kept.every(({ cell }) => Math.abs(cell - one.cell) > apart)) kept.push(one);
  }
  return kept.sort((a, b) => a.cell - b.cell);
}

/** s, the largest turn towards the motor around a step of the commands; null where it does not stand out or no rates are logged. */
function knockAt(
  flight: Flight,
  { effectiveness: { matrix: b } }: MotorThrusts,
  { motor, at, isYawKnown }: ThrustLoss,
): number | null {
  const [roll, pitch] = [channelOf(flight, "rate.roll.measured"), channelOf(flight, "rate.pitch.measured")];
  if (roll === undefined || pitch === undefined) return null;
  const asked = [channelOf(flight, "rate.roll.setpoint"), channelOf(flight, "rate.pitch.setpoint")];
  // In a turn the body is turned on purpose as well: what was asked for is no knock.
  const isAsked = !isYawKnown && asked.every((channel) => channel !== undefined);
  const around = { start: at - 4, end: at + SETTLING + 1 };
  const channels = [roll, pitch, ...(isAsked ? (asked as Channel[]) : [])] as [Channel, ...Channel[]];
  const { time, values } = alignChannels(channels, [around]);
  // Less thrust at a motor turns the body against that motor's own moments.
  const [perRoll, perPitch] = [1, 2].map((row) => -b.data[row * b.columns + motor - 1]!) as [number, number];
  const turn = (i: number) =>
    perRoll * (values[0]![i]! - (values[2]?.[i] ?? 0)) + perPitch * (values[1]![i]! - (values[3]?.[i] ?? 0));
  const lag = Math.max(1, Math.round(KNOCK_TIME * roll.rate));
  let best: { i: number; jump: number } | null = null;
  const quiet: number[] = [];
  for (let i = 0; i + lag < time.length; i++) {
    const jump = (turn(i + lag) - turn(i)) / (time[i + lag]! - time[i]!);
    if (time[i]! < at - LONGEST_WAIT) quiet.push(jump);
    else if (best === null || jump > best.jump) best = { i, jump };
  }
  if (best === null || quiet.length < 10) return null;
  return best.jump > KNOCK * standardDeviation(Float64Array.from(quiet)) ? time[best.i]! : null;
}
