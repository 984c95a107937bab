import type { Layout } from "./load-shares.ts";

/** What can shift the load among motors. `none`: nothing beyond what aircraft in order show. */
export type Pattern = "single-motor" | "several-motors" | "spin-pair" | "centre-of-gravity" | "motor-group";

/**
 * One explanation of a shift of the load centre: how far each of its unknowns moves the centre's three numbers, and
 * how large the unknown is where the explanation holds.
 */
export interface Explanation {
  readonly pattern: Pattern | "none";
  /** numbers of the motors it names, from 1 */
  readonly motors: readonly number[];
  /** each: shift in [forward / reach, right / reach, spin bias] per unit of the unknown */
  readonly directions: readonly Shift[];
  /** one standard deviation of each unknown, before the flight is looked at */
  readonly spread: readonly number[];
  /** true for each unknown that can only be positive: a motor that needs more command, never less */
  readonly isPositive: readonly boolean[];
  /** how common the explanation is beside the others; all add up to 1 */
  readonly weight: number;
}

export type Shift = readonly [number, number, number];

/** How common each kind of explanation is, before the flight is looked at: one fault is likelier than two at once. */
const WEIGHTS: Record<Explanation["pattern"], number> = {
  none: 0.3,
  "single-motor": 0.3,
  "spin-pair": 0.18,
  "centre-of-gravity": 0.12,
  "several-motors": 0.06,
  "motor-group": 0.04,
};

/**
 * One standard deviation where there is one at all: a motor's extra demand, a spin bias, an offset over the reach; and
 * the spin bias that a damaged propeller brings because its drag does not fall in the proportion of its thrust.
 */
const SPREAD = { excess: 0.15, spin: 0.06, offset: 0.08, torque: 0.008 };

/**
 * Every explanation that an aircraft's layout allows. A weak motor shifts the load towards itself and to its own spin
 * direction; an offset of the centre of gravity shifts it without any spin bias; a tilted motor or propellers of
 * unequal pitch shift the spin bias alone.
 */
export function explanationsOf(layout: Layout): Explanation[] {
  const numbers = Array.from(layout.healthy, (_, i) => i + 1);
  const towards = (motor: number) => towardsMotor(layout, motor);
  const motorsExplain = (pattern: Pattern, motors: readonly number[], directions: readonly Shift[]) => ({
    pattern,
    motors,
    directions: [...directions, SPIN_ALONE],
    spread: [...directions.map(() => SPREAD.excess), SPREAD.torque],
    isPositive: [...directions.map(() => true), false],
    weight: 0,
  });
  const pairs = numbers.flatMap((a) => numbers.filter((b) => b > a).map((b) => [a, b] as const));
  const all: Explanation[] = [
    { pattern: "none", motors: [], directions: [], spread: [], isPositive: [], weight: 0 },
    ...numbers.map((motor) => motorsExplain("single-motor", [motor], [towards(motor)])),
    ...pairs.map((pair) => motorsExplain("several-motors", pair, pair.map(towards))),
    ...groupsOf(layout).map((group) => motorsExplain("motor-group", group, [sum(group.map(towards))])),
    {
      pattern: "spin-pair",
      motors: [],
      directions: [SPIN_ALONE],
      spread: [SPREAD.spin],
      isPositive: [false],
      weight: 0,
    },
    {
      pattern: "centre-of-gravity",
      motors: [],
      directions: [
        [1, 0, 0],
        [0, 1, 0],
      ],
      spread: [SPREAD.offset, SPREAD.offset],
      isPositive: [false, false],
      weight: 0,
    },
  ];
  return all.map((explanation) => ({
    ...explanation,
    weight: WEIGHTS[explanation.pattern] / all.filter(({ pattern }) => pattern === explanation.pattern).length,
  }));
}

const SPIN_ALONE: Shift = [0, 0, 1];

/** m, the length that offsets are measured by: root mean square distance of the motors along one axis. */
export function reachOf({ x, y, motors }: Layout): number {
  const squares = x.reduce((total, value, i) => total + value * value + y[i]! ** 2, 0);
  return Math.sqrt(squares / (2 * motors));
}

/** Shift of the load centre for a small extra demand of one motor, as a share of what it carries. */
function towardsMotor(layout: Layout, motor: number): Shift {
  const i = motor - 1;
  const share = layout.healthy[i]!;
  const reach = reachOf(layout);
  return [(share * layout.x[i]!) / reach, (share * layout.y[i]!) / reach, share * layout.reaction[i]!];
}

const sum = (shifts: readonly Shift[]): Shift =>
  shifts.reduce<Shift>((total, shift) => [total[0] + shift[0], total[1] + shift[1], total[2] + shift[2]], [0, 0, 0]);

/** Motors that share an arm, an end or a side, by where they sit; each set once, none of a single motor or of all. */
function groupsOf({ x, y, motors }: Layout): number[][] {
  const numbers = Array.from({ length: motors }, (_, i) => i + 1);
  const [reachX, reachY] = [x, y].map((of) => Math.max(...of.map(Math.abs)));
  const arms = numbers.map((motor) =>
    numbers.filter((other) => Math.hypot(x[other - 1]! - x[motor - 1]!, y[other - 1]! - y[motor - 1]!) < 1e-6),
  );
  const halves = [x, x.map((v) => -v), y, y.map((v) => -v)].map((of, k) =>
    numbers.filter((motor) => of[motor - 1]! > 0.05 * (k < 2 ? reachX! : reachY!)),
  );
  const keys = new Set<string>();
  return [...arms, ...halves].filter((group) => {
    const key = group.join();
    if (group.length < 2 || group.length === motors || keys.has(key)) return false;
    keys.add(key);
    return true;
  });
}
