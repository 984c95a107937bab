import type { Task, TaskOf } from "./mission.ts";
import { stickAt } from "./stick.ts";

/** What a stretch of the flight is, in the words of the contract. */
export interface PlannedPhase {
  readonly kind: "ground" | "climb" | "hover" | "cruise" | "turn" | "descent" | "unknown";
  readonly start: number;
  readonly end: number;
  /** m/s over ground, number of the speed step and of the leg, in cruise */
  readonly speed: number | null;
  readonly step: number | null;
  readonly leg: number | null;
}

/**
 * The whole flight on a clock, worked out before it is flown: reference motion and stick inputs are functions of
 * time alone, so that two flights that differ in a fault are asked for exactly the same.
 * Each array holds one value per tick of `interval` s; earth axes north, east, down from the take-off point.
 */
export interface Plan {
  readonly interval: number;
  readonly ticks: number;
  readonly position: readonly [Float64Array, Float64Array, Float64Array];
  readonly velocity: readonly [Float64Array, Float64Array, Float64Array];
  readonly acceleration: readonly [Float64Array, Float64Array, Float64Array];
  readonly heading: Float64Array;
  /** rad of tilt for roll and pitch, rad/s for yaw; NaN where the pilot's hands are off */
  readonly stick: readonly [Float64Array, Float64Array, Float64Array];
  /** 0 motors idle on the ground, 1 flying */
  readonly flying: Uint8Array;
  readonly modes: readonly string[];
  readonly mode: Uint8Array;
  readonly phases: readonly PlannedPhase[];
  /** s, when each of the mission's stick inputs began and ended */
  readonly sticks: readonly { readonly start: number; readonly end: number }[];
}

const MODES = ["ground", "climb", "hold", "line", "turn", "manual", "descent"] as const;
type Mode = (typeof MODES)[number];

/** Lays a mission out in time. `interval` in s. */
export function planMission(tasks: readonly Task[], interval: number): Plan {
  const pen = createPen(interval);
  if (tasks[0]?.do !== "aloft") pen.draw(1.5, "ground", "ground", {}, { flying: false });
  for (const task of tasks) perform(task, pen);
  return pen.plan();
}

type Pen = ReturnType<typeof createPen>;

function perform(task: Task, pen: Pen): void {
  switch (task.do) {
    case "aloft":
      pen.lift(task.height);
      return;
    case "wait":
      pen.draw(task.seconds, "ground", "ground", {}, { flying: false });
      return;
    case "take-off": {
      // Speeding up and slowing down cover half a second's climb each.
      const seconds = Math.max(0, task.height / task.climb - 1);
      pen.draw(1, "climb", "climb", { down: ease(0, -task.climb, 1) });
      pen.draw(seconds, "climb", "climb", { down: () => -task.climb });
      pen.draw(1, "climb", "climb", { down: ease(-task.climb, 0, 1) });
      return;
    }
    case "hover":
      pen.draw(task.seconds, "hover", "hold", {});
      return;
    case "legs":
      flyLegs(task, pen);
      return;
    case "sticks": {
      const axis = ["roll", "pitch", "yaw"].indexOf(task.axis);
      pen.draw(task.seconds, "unknown", "manual", {}, { stick: [axis, (t) => stickAt(task, t)] });
      return;
    }
    case "land": {
      const height = pen.height();
      const soft = Math.min(0.5, task.descent);
      const fast = Math.max(0, (height - 3) / task.descent);
      pen.draw(1, "descent", "descent", { down: ease(0, task.descent, 1) });
      if (fast > 0) pen.draw(fast, "descent", "descent", { down: () => task.descent });
      pen.draw(1, "descent", "descent", { down: ease(task.descent, soft, 1) });
      // On below the ground, so that it is reached however far off the navigation is.
      pen.draw(Math.max(0, pen.height() + 1) / soft, "descent", "descent", { down: () => soft });
      pen.settle();
      pen.draw(2, "ground", "ground", {}, { flying: false });
      return;
    }
  }
}

/** Legs up and down, the nose always forward, side-stepping between them while the nose comes round. */
function flyLegs(task: TaskOf<"legs">, pen: Pen): void {
  let along = (task.heading * Math.PI) / 180;
  pen.draw(turnSeconds(along - pen.heading(), task.turn), "turn", "turn", { toHeading: along });
  let leg = 0;
  for (const [index, speed] of task.speeds.entries()) {
    for (let n = 0; n < 2 * task.pairs; n++) {
      leg++;
      const ramp = (Math.PI / 2) * (speed / task.acceleration);
      const [north, east] = [Math.cos(along), Math.sin(along)];
      const line = (speedAt: (t: number) => number) => ({
        north: (t: number) => north * speedAt(t),
        east: (t: number) => east * speedAt(t),
      });
      pen.draw(ramp, "unknown", "line", line(ease(0, speed, ramp)));
      pen.draw(
        task.seconds,
        "cruise",
        "line",
        line(() => speed),
        { speed, step: index + 1, leg },
      );
      pen.draw(ramp, "unknown", "line", line(ease(speed, 0, ramp)));
      const next = along + Math.PI;
      const seconds = Math.max(2, turnSeconds(Math.PI, task.turn));
      const side = (2 * task.spacing) / seconds;
      const sideways = (t: number) => (side * (1 - Math.cos((2 * Math.PI * t) / seconds))) / 2;
      const turn = n % 2 === 0 ? 1 : -1;
      pen.draw(seconds, "turn", "turn", {
        north: (t) => -turn * east * sideways(t),
        east: (t) => turn * north * sideways(t),
        toHeading: next,
      });
      along = next;
    }
  }
}

/** From one speed to another in `seconds` along half a cosine: no jump in acceleration's sum, largest pi/2 its mean. */
function ease(from: number, to: number, seconds: number): (t: number) => number {
  return (t) => from + ((to - from) * (1 - Math.cos((Math.PI * Math.min(t, seconds)) / seconds))) / 2;
}

/** rad/s^2, the most that is asked of the yaw axis, by far the weakest */
const YAW_ACCELERATION = 0.3;

/** s for a turn along half a cosine: within the rate given (its largest) and the acceleration above. */
function turnSeconds(angle: number, degreesPerSecond: number): number {
  const size = Math.abs(angle);
  const byRate = (Math.PI / 2) * ((size * 180) / Math.PI / degreesPerSecond);
  return Math.max(byRate, Math.PI * Math.sqrt(size / 2 / YAW_ACCELERATION));
}

interface Motion {
  readonly north?: (t: number) => number;
  readonly east?: (t: number) => number;
  readonly down?: (t: number) => number;
  readonly toHeading?: number;
}

interface Marks {
  readonly flying?: boolean;
  readonly speed?: number;
  readonly step?: number;
  readonly leg?: number;
  readonly stick?: readonly [axis: number, at: (t: number) => number];
}

/** Draws stretch after stretch onto growing lists. */
function createPen(interval: number) {
  const position: number[][] = [[], [], []];
  const velocity: number[][] = [[], [], []];
  const stick: number[][] = [[], [], []];
  const heading: number[] = [];
  const flying: number[] = [];
  const mode: number[] = [];
  const phases: PlannedPhase[] = [];
  const sticks: { start: number; end: number }[] = [];
  const at = [0, 0, 0];
  let nose = 0;
  return {
    height: () => -at[2]!,
    heading: () => nose,
    /** begins in the air */
    lift(height: number) {
      at[2] = -height;
    },
    /** after landing the reference is the ground itself */
    settle() {
      at[2] = 0;
    },
    draw(seconds: number, kind: PlannedPhase["kind"], name: Mode, motion: Motion, marks: Marks = {}) {
      const count = Math.round(seconds / interval);
      if (count === 0) return;
      const start = heading.length * interval;
      const from = nose;
      const turn = motion.toHeading === undefined ? 0 : motion.toHeading - from;
      for (let k = 0; k < count; k++) {
        const t = k * interval;
        const speeds = [motion.north?.(t) ?? 0, motion.east?.(t) ?? 0, motion.down?.(t) ?? 0];
        for (let axis = 0; axis < 3; axis++) {
          position[axis]!.push(at[axis]!);
          velocity[axis]!.push(speeds[axis]!);
          at[axis] = at[axis]! + speeds[axis]! * interval;
          stick[axis]!.push(marks.stick === undefined ? Number.NaN : marks.stick[0] === axis ? marks.stick[1](t) : 0);
        }
        heading.push(from + (turn * (1 - Math.cos((Math.PI * (k + 1)) / count))) / 2);
        flying.push(marks.flying === false ? 0 : 1);
        mode.push(MODES.indexOf(name));
      }
      nose = from + turn;
      const { speed = null, step = null, leg = null } = marks;
      const last = phases.at(-1);
      const end = heading.length * interval;
      if (marks.stick !== undefined) sticks.push({ start, end });
      if (last?.kind === kind && kind !== "cruise") phases[phases.length - 1] = { ...last, end };
      else phases.push({ kind, start, end, speed, step, leg });
    },
    plan(): Plan {
      const pack = (lists: number[][]) =>
        lists.map((list) => Float64Array.from(list)) as [Float64Array, Float64Array, Float64Array];
      return {
        interval,
        ticks: heading.length,
        position: pack(position),
        velocity: pack(velocity),
        acceleration: velocity.map((speeds) => differences(speeds, flying, interval)) as [
          Float64Array,
          Float64Array,
          Float64Array,
        ],
        heading: Float64Array.from(heading),
        stick: pack(stick),
        flying: Uint8Array.from(flying),
        modes: MODES,
        mode: Uint8Array.from(mode),
        phases,
        sticks,
      };
    },
  };
}

/** Rates of change between ticks; none across the touch of the ground, which stops the reference at once. */
function differences(values: readonly number[], flying: readonly number[], interval: number): Float64Array {
  return Float64Array.from(values, (value, i) => (flying[i + 1] === 1 ? (values[i + 1]! - value) / interval : 0));
}
