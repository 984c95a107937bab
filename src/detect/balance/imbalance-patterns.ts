import type { Layout } from "./load-shares.ts";
import { sharedPlaces } from "./shared-places.ts";
import { USUAL_TILT } from "./usual-tilt.ts";

/** What can shift the load among motors. `none`: nothing beyond what aircraft in order show. */
export type Pattern = "single-motor" | "several-motors" | "spin-pair" | "centre-of-gravity" | "motor-group";

/**
 * One explanation of a shift of the load centre: how far each of its unknowns moves the centre's three numbers, and
 * how large the unknown is where the explanation holds.
 */
export interface Explanation {
  readonly pattern: Pattern | "none";
  /** a second cause at the same time; null where there is one cause only */
  readonly besides: Pattern | null;
  /** numbers of the motors it names, from 1 */
  readonly motors: readonly number[];
  /** each: shift in [forward / reach, right / reach, spin bias] per unit of the unknown */
  readonly directions: readonly Shift[];
  /** one standard deviation of each unknown, before the flight is looked at */
  readonly spread: readonly number[];
  /** true for each unknown that can only be positive: a motor that needs more command, never less */
  readonly isPositive: readonly boolean[];
  /** how common the explanation is beside the others; all of an aircraft add up to 1 */
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
 * One standard deviation where there is one at all: a motor's extra demand, what one motor of a group differs from the
 * others of it by (as unlike as motors of one batch are, and their damage besides: without it a group whose motors were
 * weak exactly alike would explain any offset along an axis), the spin bias of propellers whose two kinds differ, an offset over the reach; and the spin bias that a damaged propeller brings because its drag does not fall in
 * the proportion of its thrust.
 */
const SPREAD = { excess: 0.15, ownExcess: 0.02, propellers: 0.06, offset: 0.08, torque: 0.008 };

/**
 * Every explanation that an aircraft's layout allows, of a shift from where the load lay before. A weak motor shifts the load towards itself and to its own spin
 * direction; an offset of the centre of gravity shifts it without any spin bias; a tilted motor or propellers of
 * unequal pitch shift the spin bias alone. Two of these three that have nothing to do with each other may come
 * together: as often as each alone times the other, so two causes are believed only where no one cause will do.
 * @param before where the load lay: what a motor asks for besides moves the load from there towards the motor
 */
export function explanationsOf(layout: Layout, before: Shift = IN_THE_MIDDLE): Explanation[] {
  const numbers = Array.from(layout.healthy, (_, i) => i + 1);
  const towards = (motor: number) => towardsMotor(layout, motor, before);
  const pairs = numbers.flatMap((a) => numbers.filter((b) => b > a).map((b) => [a, b] as const));
  const single = numbers.map((motor) => motorsExplain("single-motor", [motor], [towards(motor)]));
  const groups = groupsOf(layout).map((group) => groupExplains(group, group.map(towards)));
  const spin: Unweighed = { ...NOTHING, pattern: "spin-pair", ...unknown([SPIN_ALONE], spinSpread(layout)) };
  const offset: Unweighed = {
    ...NOTHING,
    pattern: "centre-of-gravity",
    ...unknown(
      [
        [1, 0, 0],
        [0, 1, 0],
      ],
      SPREAD.offset,
    ),
  };
  const all = [
    NOTHING,
    ...single,
    ...pairs.map((pair) => motorsExplain("several-motors", pair, pair.map(towards))),
    ...groups,
    spin,
    offset,
    ...[...single, ...groups].map((motors) => together(motors, spin)),
    together(spin, offset),
  ];
  const kindOf = ({ pattern, besides }: Unweighed) => `${pattern} ${besides}`;
  const weights = all.map((one) => {
    const alike = all.filter((other) => kindOf(other) === kindOf(one)).length;
    return (WEIGHTS[one.pattern] * (one.besides === null ? 1 : WEIGHTS[one.besides])) / alike;
  });
  const total = weights.reduce((before, weight) => before + weight, 0);
  return all.map((explanation, at) => ({ ...explanation, weight: weights[at]! / total }));
}

type Unweighed = Omit<Explanation, "weight">;

const NOTHING: Unweighed = { pattern: "none", besides: null, motors: [], directions: [], spread: [], isPositive: [] };

/** Unknowns of either sign, all of one spread. */
const unknown = (directions: readonly Shift[], spread: number) => ({
  directions,
  spread: directions.map(() => spread),
  isPositive: directions.map(() => false),
});

const motorsExplain = (pattern: Pattern, motors: readonly number[], directions: readonly Shift[]): Unweighed => ({
  pattern,
  besides: null,
  motors,
  directions: [...directions, SPIN_ALONE],
  spread: [...directions.map(() => SPREAD.excess), SPREAD.torque],
  isPositive: [...directions.map(() => true), false],
});

/** A common excess of all, and what each of them differs from it by. */
function groupExplains(group: readonly number[], towards: readonly Shift[]): Unweighed {
  const common = motorsExplain("motor-group", group, [sum(towards)]);
  return {
    ...common,
    directions: [...common.directions, ...towards],
    spread: [...common.spread, ...towards.map(() => SPREAD.ownExcess)],
    isPositive: [...common.isPositive, ...towards.map(() => false)],
  };
}

const together = (a: Unweighed, b: Unweighed): Unweighed => ({
  pattern: a.pattern,
  besides: b.pattern as Pattern,
  motors: a.motors,
  directions: [...a.directions, ...b.directions],
  spread: [...a.spread, ...b.spread],
  isPositive: [...a.isPositive, ...b.isPositive],
});

/**
 * The spin bias of unequal propellers, or of one motor that stands as far twisted as motors do: share x arm x sin(tilt)
 * over the torque ratio, so the same twist tells more on an aircraft with long arms and little reaction torque.
 */
function spinSpread({ x, y, healthy, torqueRatio }: Layout): number {
  const perTilt = healthy.map((share, i) => (share * Math.hypot(x[i]!, y[i]!)) / torqueRatio);
  const squares = perTilt.reduce((total, value) => total + value * value, 0);
  return Math.hypot(SPREAD.propellers, Math.sin(USUAL_TILT) * Math.sqrt(squares / perTilt.length));
}

export const SPIN_ALONE: Shift = [0, 0, 1];

/** Where the load of an aircraft in order lies. */
export const IN_THE_MIDDLE: Shift = [0, 0, 0];

/** m, the length that offsets are measured by: root mean square distance of the motors along one axis. */
export function reachOf({ x, y, motors }: Layout): number {
  const squares = x.reduce((total, value, i) => total + value * value + y[i]! ** 2, 0);
  return Math.sqrt(squares / (2 * motors));
}

/**
 * Shift of the load centre for a small extra demand of one motor, as a share of what it carries. Demand that makes no
 * thrust takes the part `loss x share` out of the sum of demands, so the centre goes that part of the way to the motor.
 */
function towardsMotor(layout: Layout, motor: number, [forward, right, spinBias]: Shift): Shift {
  const i = motor - 1;
  const share = layout.healthy[i]!;
  const reach = reachOf(layout);
  return [
    share * (layout.x[i]! / reach - forward),
    share * (layout.y[i]! / reach - right),
    share * (layout.reaction[i]! - spinBias),
  ];
}

const sum = (shifts: readonly Shift[]): Shift =>
  shifts.reduce<Shift>((total, shift) => [total[0] + shift[0], total[1] + shift[1], total[2] + shift[2]], [0, 0, 0]);

/** Motors that share an arm, an end or a side, by where they sit; each set once, none of a single motor or of all. */
function groupsOf(layout: Layout): number[][] {
  const { x, y, motors } = layout;
  const numbers = Array.from({ length: motors }, (_, i) => i + 1);
  const [reachX, reachY] = [x, y].map((of) => Math.max(...of.map(Math.abs)));
  const halves = [x, x.map((v) => -v), y, y.map((v) => -v)].map((of, k) =>
    numbers.filter((motor) => of[motor - 1]! > 0.05 * (k < 2 ? reachX! : reachY!)),
  );
  const keys = new Set<string>();
  return [...sharedPlaces(layout), ...halves].filter((group) => {
    const key = group.join();
    if (group.length < 2 || group.length === motors || keys.has(key)) return false;
    keys.add(key);
    return true;
  });
}
