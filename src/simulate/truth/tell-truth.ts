import { type Fault, isLoggingFault } from "../faults/fault.ts";
import { type Flown, fly } from "../flight/fly.ts";
import { type FaultFacts, faultFacts } from "./fault-facts.ts";
import { motorLimits, windups } from "./limit-stretches.ts";
import type { FaultTruth, Truth } from "./truth.ts";
import { type VisibleMotion, visibleMotion } from "./visible-motion.ts";

const UNSEEN: Omit<VisibleMotion, "amplitude" | "calm"> & { amplitude: null; calm: null } = {
  visible: null,
  faded: null,
  frequency: null,
  growth: null,
  amplitude: null,
  calm: null,
};

/** Everything that is known of a flight. Each fault that moves an axis costs one more flight: its healthy twin. */
export function tellTruth(flown: Flown): Truth {
  const { setup, plan, recording } = flown;
  const { scenario } = setup;
  const { time, rows } = recording;
  const duration = time[rows - 1]!;
  const within = (at: number) => Math.min(duration, at);
  return {
    schema: "fettle/truth@1",
    scenario: scenario.name,
    seed: scenario.seed,
    duration,
    crash: recording.crash,
    faults: scenario.faults.map((fault) => faultTruth(fault, faultFacts(fault, setup, plan), flown)),
    sticks: sticksOf(flown),
    phases: plan.phases.map((phase) => ({ ...phase, start: within(phase.start), end: within(phase.end) })),
    limits: motorLimits(flown),
    windups: windups(flown),
  };
}

function faultTruth(fault: Fault, facts: FaultFacts, flown: Flown): FaultTruth {
  const { rows, time } = flown.recording;
  const duration = time[rows - 1]!;
  const applied = Math.min(fault.start, duration);
  const ended = Math.min(fault.end ?? duration, duration);
  const { axis, loop, driver, motor, channel, mode, findings } = facts;
  const motion = measured(fault, facts, flown, applied, ended);
  // What noise makes ring swells and fades without end: it has no growth of its own.
  const isRinging = fault.kind === "ringing-structure" || fault.kind === "light-damping";
  const isSeen = driver !== null && motion.visible !== null;
  const growth = isSeen && !isRinging ? (facts.growth ?? motion.growth) : null;
  const frequency = isSeen ? (facts.frequency ?? motion.frequency) : null;
  return {
    kind: fault.kind,
    applied,
    ended,
    visible: motion.visible,
    faded: motion.faded,
    axis,
    loop,
    driver,
    trend: isSeen ? trendOf(growth, frequency) : null,
    motor,
    channel,
    frequency,
    growth,
    amplitude: motion.amplitude,
    calm: motion.calm,
    mode,
    findings: [...findings],
    stated: fault,
  };
}

function measured(fault: Fault, { axis, band, driver }: FaultFacts, flown: Flown, applied: number, ended: number) {
  if (axis === null || band === null || isLoggingFault(fault)) return UNSEEN;
  const { setup, recording } = flown;
  const { scenario } = setup;
  const twin = fly(
    scenario,
    scenario.faults.filter((other) => other !== fault),
  ).recording;
  const k = (["roll", "pitch", "yaw"] as const).indexOf(axis);
  return visibleMotion({
    time: recording.time,
    rate: recording.trueRate[k]!,
    healthy: twin.trueRate[k]!,
    measured: twin.channels.get(`rate.${axis}.measured`)!,
    isSteady: steadyRows(flown),
    stretchBefore: (time) => steadyRows(flown, applied, time),
    band,
    applied,
    ended,
    linearUntil: (from) => firstLimit(flown, from),
    cycles: driver === null ? 0 : 2,
    isSelfExcited: driver === "controller" && fault.kind !== "light-damping",
  });
}

/** s at which a motor first comes to a limit after the time given; infinity if none does. */
function firstLimit(flown: Flown, from: number): number {
  const starts = motorLimits(flown).flatMap(({ stretches }) => stretches.map(({ start }) => start));
  return Math.min(Infinity, ...starts.filter((start) => start > from));
}

/** Rows in hover and in steady cruise; with `before`, in those stretches alone that had ended by that time. */
function steadyRows({ recording, plan }: Flown, from = 0, before = Infinity): (row: number) => boolean {
  const stretches = plan.phases.filter(
    ({ kind, start, end }) => (kind === "hover" || kind === "cruise") && start >= from && end <= before,
  );
  const steady = Uint8Array.from(recording.time, (at) =>
    stretches.some(({ start, end }) => at >= start && at < end) ? 1 : 0,
  );
  return (row) => steady[row] === 1;
}

/** An envelope that changes by less than a tenth in ten cycles stays as it is. */
function trendOf(growth: number | null, frequency: number | null): FaultTruth["trend"] {
  if (growth === null || frequency === null) return "sustained";
  const perTenCycles = (10 * growth) / frequency;
  return perTenCycles > 0.1 ? "growing" : perTenCycles < -0.1 ? "decaying" : "sustained";
}

function sticksOf({ setup, plan }: Flown): Truth["sticks"] {
  const tasks = setup.scenario.mission.filter((task) => task.do === "sticks");
  const starts = plan.sticks;
  return tasks.map((task, i) => ({
    axis: task.axis,
    shape: task.shape,
    start: starts[i]!.start,
    end: starts[i]!.end,
    frequency: task.shape === "sine" ? task.from : null,
  }));
}
