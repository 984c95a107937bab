import type { Aircraft } from "../../src/aircraft/index.ts";
import type { Flight, Phase } from "../../src/flight/flight.ts";
import type { Channel, Series, Span } from "../../src/log/channel.ts";
import type { Log } from "../../src/log/log.ts";

/** The invented survey quadrotor of the tests: 14 kg, with a sensor boom that hangs out to the front. */
export const HERON: Aircraft = {
  name: "Heron four",
  mass: { value: 14, error: 0.2 },
  motors: [
    { x: 0.42, y: -0.42, spin: "cw", label: "front left", maxThrust: 62 },
    { x: 0.42, y: 0.42, spin: "ccw", label: "front right", maxThrust: 62 },
    { x: -0.42, y: 0.42, spin: "cw", label: "rear right", maxThrust: 62 },
    { x: -0.42, y: -0.42, spin: "ccw", label: "rear left", maxThrust: 62 },
  ],
  command: { unit: "us", min: 1050, max: 1950, idle: 1110 },
  thrust: { exponent: 2, max: 62, torqueRatio: 0.018, timeConstant: { value: 0.06, error: null } },
  integratorLimit: { roll: 0.3, pitch: 0.3, yaw: 0.2 },
  notes: { battery: "12S 22 Ah, pack 3", boom: "carbon, 1.1 m, sensor at the tip" },
};

export interface SurveyOptions {
  /** s, default 240 */
  readonly duration?: number;
  /** Hz, default 100 */
  readonly rate?: number;
  /** s, a stretch in which the log holds nothing */
  readonly gap?: Span;
  /** other column names, by channel */
  readonly columns?: Readonly<Record<string, string>>;
}

const DEGREE = Math.PI / 180;

/** A survey flight: out and back in speed steps; pitch swings up at 60 % of the flight, motor 3 comes to its ceiling. */
export function surveyFlight(options: SurveyOptions = {}): Flight {
  const { duration = 240, rate = 100, gap, columns = {} } = options;
  const noise = seeded(7);
  const time = timesOf(duration, rate, gap);
  const swing = (t: number) => {
    const since = t - 0.6 * duration;
    if (since < 0 || since > 26) return 0;
    return Math.min(24, 1.2 * Math.exp(since / 5)) * DEGREE * Math.sin(2 * Math.PI * 1.52 * since);
  };
  const flying = (t: number) => t > 8 && t < duration - 8;
  const wave = (period: number, size: number) => (t: number) => size * DEGREE * Math.sin((2 * Math.PI * t) / period);
  const channels = new Map<string, Channel>();
  const add = (name: string, unit: string, value: (t: number) => number) => {
    const series: Series = { time, values: Float64Array.from(time, value) };
    const longestGap = gap === undefined ? 1 / rate : gap.end - gap.start;
    const gaps = gap === undefined ? [] : [gap];
    const coverage = 1 - (gap === undefined ? 0 : longestGap / duration);
    const column = columns[name] ?? name.replaceAll(".", " ");
    channels.set(name, { name, column, unit, series, rate, coverage, longestGap, gaps, stuck: [] });
  };
  for (const axis of ["roll", "pitch", "yaw"]) {
    const asked = wave(axis === "yaw" ? 31 : 17, axis === "yaw" ? 4 : 9);
    const extra = axis === "pitch" ? swing : () => 0;
    add(`rate.${axis}.setpoint`, "rad/s", (t) => (flying(t) ? asked(t) : 0));
    add(`rate.${axis}.measured`, "rad/s", (t) => (flying(t) ? asked(t - 0.08) + extra(t) + 0.6 * DEGREE * noise() : 0));
    add(`attitude.${axis}.setpoint`, "rad", (t) => (flying(t) ? asked(t) / 2 : 0));
    add(`attitude.${axis}.measured`, "rad", (t) => (flying(t) ? asked(t - 0.2) / 2 + extra(t - 0.16) / 9.5 : 0));
  }
  HERON.motors.forEach(({ x }, index) => {
    const trim = index === 2 ? 210 : index === 0 ? -40 : 30;
    add(`motor.${index + 1}.command`, "us", (t) => {
      if (!flying(t)) return 1110;
      const speed = 120 * Math.sin((Math.PI * t) / duration) * (x > 0 ? -0.5 : 1);
      const raw = 1480 + trim + speed - Math.sign(x) * 700 * swing(t + 0.05) + 22 * noise();
      return Math.round(Math.min(1950, Math.max(1110, raw)));
    });
  });
  const log = logOf(channels, duration, rate, gap);
  return {
    log,
    still: [],
    aircraft: HERON,
    span: { start: 0, end: duration },
    phases: phasesOf(duration),
    airborne: [{ start: 8, end: duration - 8 }],
    airborneBy: "motor commands above their floor",
    falseAlarms: 0.5,
  };
}

function logOf(channels: ReadonlyMap<string, Channel>, duration: number, rate: number, gap: Span | undefined): Log {
  return {
    file: "heron-leg-7.csv",
    sha256: "0f".repeat(32),
    rows: Math.round(duration * rate),
    isCut: false,
    duration,
    stretch: { start: 0, end: duration },
    start: "2026-11-20T09:41:00Z",
    channels,
    mode: null,
    mapping: {
      source: "words",
      file: null,
      sha256: null,
      time: { column: "time_s", unit: "s", rate: null },
      matches: [],
      questions: [],
    },
    clock: {
      rate,
      repeated: 0,
      backwards: 0,
      missing: 0,
      firstBackwards: null,
      jitter: 0.0002,
      gaps: gap === undefined ? [] : [gap],
    },
    frozenFrom: null,
    empty: [],
  };
}

function timesOf(duration: number, rate: number, gap: Span | undefined): Float64Array {
  const all = Array.from({ length: Math.round(duration * rate) + 1 }, (_, index) => index / rate);
  return Float64Array.from(gap === undefined ? all : all.filter((t) => t <= gap.start || t >= gap.end));
}

function phasesOf(duration: number): Phase[] {
  const plain = { speed: null, step: null, leg: null };
  const at = (share: number) => Math.round(share * duration);
  return [
    { kind: "ground", start: 0, end: 8, ...plain },
    { kind: "climb", start: 8, end: at(0.08), ...plain },
    { kind: "hover", start: at(0.08), end: at(0.16), ...plain },
    { kind: "cruise", start: at(0.16), end: at(0.4), speed: 8, step: 1, leg: 1 },
    { kind: "turn", start: at(0.4), end: at(0.44), ...plain },
    { kind: "cruise", start: at(0.44), end: at(0.76), speed: 12, step: 2, leg: 2 },
    { kind: "turn", start: at(0.76), end: at(0.8), ...plain },
    { kind: "unknown", start: at(0.8), end: at(0.86), ...plain },
    { kind: "descent", start: at(0.86), end: duration - 8, ...plain },
    { kind: "ground", start: duration - 8, end: duration, ...plain },
  ];
}

/** Even noise between -1 and 1 from a seed, the same on every run (Park and Miller's generator). */
export function seeded(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state * 48271) % 2147483647;
    return (2 * state) / 2147483647 - 1;
  };
}
