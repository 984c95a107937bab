import type { Flown } from "../flight/fly.ts";
import type { Truth } from "./truth.ts";

interface Stretch {
  readonly from: number;
  readonly to: number;
}

/** Runs of rows for which `holds`, as first row and the row after the last; runs less than `bridge` rows apart join. */
function stretchesOf(rows: number, holds: (row: number) => boolean, bridge = 0): Stretch[] {
  const found: { from: number; to: number }[] = [];
  for (let row = 0; row < rows; row++) {
    if (!holds(row)) continue;
    const last = found.at(-1);
    if (last !== undefined && row - last.to <= bridge) last.to = row + 1;
    else found.push({ from: row, to: row + 1 });
  }
  return found;
}

/** When each motor's command was at a limit while in the air, counted row by row. */
export function motorLimits(flown: Flown): Truth["limits"] {
  const { setup, recording } = flown;
  const { min, max, idle } = setup.scenario.aircraft.command;
  const { time, rows, channels } = recording;
  const flying = recording.isAloft;
  const airborneRows = Array.from({ length: rows }, (_, row) => flying(row)).filter(Boolean).length;
  const slack = 1e-6 * (max - min);
  const found: Truth["limits"] = [];
  for (const i of setup.scenario.aircraft.motors.keys()) {
    const command = channels.get(`motor.${i + 1}.command`)!;
    const tests = {
      ceiling: (row: number) => flying(row) && command[row]! >= max - slack,
      floor: (row: number) => flying(row) && command[row]! <= idle + slack,
    };
    for (const limit of ["ceiling", "floor"] as const) {
      const stretches = stretchesOf(rows, tests[limit]);
      const count = stretches.reduce((sum, { from, to }) => sum + to - from, 0);
      if (count === 0) continue;
      found.push({ motor: i + 1, limit, share: count / airborneRows, stretches: stretches.map(inTime(time)) });
    }
  }
  return found;
}

/**
 * When an integrator wound up: at its own limit for a tenth of a second or more, or grown by a quarter of that limit
 * while a motor was at one of its own.
 */
export function windups(flown: Flown): Truth["windups"] {
  const { setup, recording } = flown;
  const { rows, time, channels } = recording;
  const { min, max, idle } = setup.scenario.aircraft.command;
  const commands = setup.scenario.aircraft.motors.map((_, i) => channels.get(`motor.${i + 1}.command`)!);
  const slack = 1e-6 * (max - min);
  const flying = recording.isAloft;
  const perSecond = setup.scenario.log.rate;
  const atLimit = stretchesOf(
    rows,
    (row) => flying(row) && commands.some((c) => c[row]! <= idle + slack || c[row]! >= max - slack),
    0.3 * perSecond,
  );
  return (["roll", "pitch", "yaw"] as const).flatMap((axis, k) => {
    const integral = channels.get(`rate.${axis}.integrator`)!.map(Math.abs);
    const limit = setup.integratorLimit[k]!;
    const full = stretchesOf(rows, (row) => flying(row) && integral[row]! >= 0.99 * limit, 0.3 * perSecond);
    const pushed = atLimit.filter(({ from, to }) => peakOf(integral, from, to) - integral[from]! > 0.25 * limit);
    const wound = new Uint8Array(rows);
    for (const { from, to } of [...full.filter(({ from, to }) => to - from >= 0.1 * perSecond), ...pushed]) {
      wound.fill(1, from, to);
    }
    return stretchesOf(rows, (row) => wound[row] === 1).map((stretch) => ({
      axis,
      ...inTime(time)(stretch),
      peak: peakOf(integral, stretch.from, stretch.to),
    }));
  });
}

function peakOf(values: Float64Array, from: number, to: number): number {
  return values.subarray(from, to).reduce((most, value) => Math.max(most, value), 0);
}

const inTime = (time: Float64Array) => (stretch: Stretch) => ({
  start: time[stretch.from]!,
  end: time[Math.min(time.length - 1, stretch.to)]!,
});
