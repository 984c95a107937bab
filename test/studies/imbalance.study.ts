import { expect, test } from "vitest";
import { reachOf } from "../../src/detect/balance/imbalance-patterns.ts";
import { type Layout, layoutOf } from "../../src/detect/balance/load-shares.ts";
import { tiltOfEachMotor } from "../../src/detect/balance/tilt-of-one-motor.ts";
import { type ThrustImbalanceEvidence, thrustImbalance } from "../../src/detect/index.ts";
import type { Flight } from "../../src/flight/index.ts";
import { randomGenerator } from "../../src/signal/index.ts";
import { BUILT_IN_AIRCRAFT, type FaultInput } from "../../src/simulate/index.ts";
import { simulatedFlight } from "../detect/simulated-flight.ts";
import { printTable } from "./print-table.ts";

/** Seeds per aircraft; each flies nine times. The first seed sets all others. */
const SEEDS = Number(process.env.SEEDS ?? 12);
const FIRST = Number(process.env.FIRST ?? 1);
const AIRCRAFT = ["small-quad", "survey-quad", "hexa", "octo", "coaxial-octo"];

/** A minute of hover in light gusts, with the fault from the start. */
function hover(name: string, seed: number, faults: FaultInput[] = []): Flight {
  const aircraft = BUILT_IN_AIRCRAFT[name]!;
  return simulatedFlight({
    name: "hover",
    seed,
    aircraft,
    mission: [
      { do: "aloft", height: 20 },
      { do: "hover", seconds: 60 },
    ],
    faults,
    log: { rate: 50 },
  }).flight;
}

const found = (flight: Flight, baseline: Flight | null = null): ThrustImbalanceEvidence | undefined =>
  thrustImbalance.detect(flight, baseline)[0];

type Counts = ReadonlyMap<string, { held: number; of: number }>;

const SHOWN_EVERY = 10;

function show(counts: Counts): void {
  printTable(
    ["what", "held", "of", "share"],
    [...counts].map(([claim, { held, of }]) => [
      claim,
      String(held),
      String(of),
      `${((100 * held) / of).toFixed(1)} %`,
    ]),
  );
}

/**
 * Whether statics tell the tilt of one motor as one number: by geometry alone the tilts that each motor would need for
 * the yaw moment of this one lie, with the interval's width, within twice the tolerance.
 */
function isOneTilt(layout: Layout, motor: number, tilt: number, width: number): boolean {
  const { reaction, healthy } = layout;
  const bias = biasOfTilt(layout, motor, tilt);
  const shares = healthy.map((share, i) => share * (1 + reaction[i]! * bias));
  const tilts = tiltOfEachMotor(layout, shares, bias);
  return Math.max(...tilts) - Math.min(...tilts) + width <= 2 * TOLERANCE;
}

/**
 * The spin bias that the tilt of one motor makes by itself: bias = -pull x (1 + reaction x bias), since the tilted
 * motor's own share moves with it.
 */
function biasOfTilt({ x, y, reaction, healthy, torqueRatio }: Layout, motor: number, tilt: number): number {
  const pull = (healthy[motor - 1]! * Math.hypot(x[motor - 1]!, y[motor - 1]!) * Math.sin(tilt)) / torqueRatio;
  return -pull / (1 + reaction[motor - 1]! * pull);
}

/** rad */
const TOLERANCE = (0.3 * Math.PI) / 180;

/**
 * What aircraft in order differ by, as the method supposes it: each motor's thrust by 1.5 %, the centre of gravity by
 * 1 % of the reach and a millimetre. All motors are 5 % weaker, because a fault cannot make one stronger.
 */
function standing(name: string, seed: number): (motor: number, loss: number) => FaultInput[] {
  const { motors } = BUILT_IN_AIRCRAFT[name]!;
  const random = randomGenerator(seed);
  const spread = Math.hypot(0.001, 0.01 * reachOf(layoutOf(BUILT_IN_AIRCRAFT[name]!)));
  const place = { x: spread * random.gaussian(), y: spread * random.gaussian() };
  const losses = motors.map(() => 0.05 + 0.015 * random.gaussian());
  return (motor, loss) => [
    { kind: "cg-offset", ...place },
    ...losses.map(
      (own, i): FaultInput => ({
        kind: "weak-motor",
        motor: i + 1,
        loss: i + 1 === motor ? 1 - (1 - own) * (1 - loss) : own,
      }),
    ),
  ];
}

const contains = (estimate: { low?: number; high?: number } | undefined, truth: number) =>
  estimate !== undefined && estimate.low! <= truth && truth <= estimate.high!;

test("thrust imbalance of simulated hovers, quadrotor to octorotor", () => {
  const counts = new Map<string, { held: number; of: number }>();
  const count = (claim: string, held: boolean) => {
    const row = counts.get(claim) ?? { held: 0, of: 0 };
    counts.set(claim, { held: row.held + (held ? 1 : 0), of: row.of + 1 });
  };
  for (let k = 0; k < SEEDS; k++) {
    for (const [a, name] of AIRCRAFT.entries()) {
      const { motors } = BUILT_IN_AIRCRAFT[name]!;
      const seed = FIRST + 10 * (1000 * a + k);
      const random = randomGenerator(seed);
      const oneOf = <T>(values: readonly T[]): T => values[Math.floor(random.uniform() * values.length)]!;
      const motor = 1 + oneOf([...motors.keys()]);
      const arm = Math.hypot(motors[0]!.x, motors[0]!.y);
      const good = hover(name, seed);
      count("in order, against another good flight: nothing", found(hover(name, seed + 5), good) === undefined);
      count(
        "in order, alone: nothing at 5 % or more",
        !(found(good)?.perMotor.excess ?? []).some(({ value }) => value >= 0.05),
      );
      const weak5 = hover(name, seed + 1, [{ kind: "weak-motor", motor, loss: 0.05 }]);
      const five = found(weak5, good);
      count("5 % weak motor, baseline: named", five?.pattern === "single-motor" && five.motor === motor);
      const weak10 = hover(name, seed + 2, [{ kind: "weak-motor", motor, loss: 0.1 }]);
      const ten = found(weak10);
      count("10 % weak motor, alone: named", ten?.pattern === "single-motor" && ten.motor === motor);
      count(
        "10 % weak motor, alone: named or among the alternatives",
        ten?.motor === motor || (ten?.alternatives.includes("single-motor") ?? false),
      );
      const tenBefore = found(weak10, good);
      count("10 % weak motor, baseline: named", tenBefore?.motor === motor);
      for (const [way, one] of [["alone", ten] as const, ["baseline", tenBefore] as const]) {
        if (one?.pattern !== "single-motor") continue;
        const { value, low, high } = one.measures.twist!;
        count(`10 % weak motor, ${way}: told as no twist`, low! * high! <= 0 || Math.abs(value) < 0.02);
      }
      count("5 % weak motor, baseline: interval of the loss", contains(five?.measures.loss, 0.05));
      count("10 % weak motor, baseline: interval of the loss", contains(tenBefore?.measures.loss, 0.1));
      const angle = 2 * Math.PI * random.uniform();
      const offset = { x: 0.05 * arm * Math.cos(angle), y: 0.05 * arm * Math.sin(angle) };
      const off = hover(name, seed + 3, [{ kind: "cg-offset", ...offset }]);
      const cg = found(off);
      const cgBefore = found(off, good);
      const missed =
        cg === undefined
          ? Number.POSITIVE_INFINITY
          : Math.hypot(cg.measures["cg-forward"]!.value - offset.x, cg.measures["cg-right"]!.value - offset.y);
      count("centre of gravity 5 % of the arm off: within 3 mm or 5 %", missed <= Math.max(0.003, 0.05 * 0.05 * arm));
      count("centre of gravity, alone: named", cg?.pattern === "centre-of-gravity");
      count("centre of gravity, baseline: named", cgBefore?.pattern === "centre-of-gravity");
      count("centre of gravity: interval forward", contains(cg?.measures["cg-forward"], offset.x));
      count("centre of gravity: interval right", contains(cg?.measures["cg-right"], offset.y));
      const degrees = oneOf([-2, -1, 1, 2]);
      const tilted = hover(name, seed + 4, [{ kind: "motor-tilt", motor, degrees }]);
      const tilt = found(tilted);
      const tiltBefore = found(tilted, good);
      const angleFound = tilt?.measures.tilt?.value ?? Number.NaN;
      const isNear = Math.abs((angleFound * 180) / Math.PI - degrees) <= 0.3;
      count("motor tilted 1 or 2 deg: within 0.3 deg", isNear);
      count(`motor tilted ${Math.abs(degrees)} deg: within 0.3 deg`, isNear);
      if (Math.abs(degrees) === 2) count(`motor tilted 2 deg, ${name}: within 0.3 deg`, isNear);
      const radians = (degrees * Math.PI) / 180;
      const ofMotor = tilt?.perMotor["tilt-by-motor"]?.find((one) => one.motor === motor);
      count("motor tilted 1 or 2 deg: interval of the tilt", contains(tilt?.measures.tilt, radians));
      const missedBy = Math.abs((ofMotor?.value ?? Number.NaN) - radians);
      count("tilt by motor, of the tilted one: within 0.3 deg", missedBy <= TOLERANCE);
      const width = ofMotor === undefined ? Number.POSITIVE_INFINITY : ofMotor.high! - ofMotor.low!;
      const answers = isOneTilt(layoutOf(BUILT_IN_AIRCRAFT[name]!), motor, radians, width) ? "one" : "several";
      count(`tilt of which statics leave ${answers}: within 0.3 deg`, isNear);
      if (answers === "several") count(`tilt of which statics leave several, ${name}: within 0.3 deg`, isNear);
      count("tilt by motor, of the tilted one: interval", contains(ofMotor, radians));
      count("motor tilted 1 or 2 deg: second cause besides", tilt?.besides !== undefined);
      count("motor tilted 1 or 2 deg, alone: spin pair named", tilt?.pattern === "spin-pair");
      count("motor tilted 1 or 2 deg, baseline: spin pair named", tiltBefore?.pattern === "spin-pair");
      const faults = standing(name, seed + 7);
      const other = 1 + oneOf([...motors.keys()].filter((i) => i + 1 !== motor));
      const start = hover(name, seed + 6, faults(motor, 0));
      const told = (e: ThrustImbalanceEvidence | undefined) => e?.pattern === "single-motor" && e.motor === motor;
      count("scattered, in order, alone: nothing", found(start) === undefined);
      const weak = hover(name, seed + 7, faults(motor, 0.1));
      for (const [way, baseline] of [["alone", null] as const, ["baseline", start] as const]) {
        const one = found(weak, baseline);
        count(`scattered, 10 % weak motor, ${way}: named`, told(one) && one?.besides === undefined);
        if (told(one))
          count(`scattered, 10 % weak motor, ${way}: interval of the loss`, contains(one?.measures.loss, 0.1));
      }
      const both = hover(name, seed + 8, [...faults(motor, 0.15), { kind: "motor-tilt", motor: other, degrees: 2 }]);
      for (const [way, baseline] of [["alone", null] as const, ["baseline", start] as const]) {
        const two = found(both, baseline);
        const what = `scattered, 15 % weak and another motor tilted 2 deg, ${way}`;
        count(`${what}: both named`, told(two) && two?.besides === "spin-pair");
        if (!told(two)) continue;
        count(`${what}: interval of the loss`, contains(two?.measures.loss, 0.15));
        // Demand that makes no thrust, 0.15 of the weak motor's, makes all shares as much smaller.
        const layout = layoutOf(BUILT_IN_AIRCRAFT[name]!);
        const ofTotal = 1 + (layout.healthy[motor - 1]! * 0.15) / 0.85;
        const bias = biasOfTilt(layout, other, (2 * Math.PI) / 180) / ofTotal;
        const { twist } = two!.measures;
        count(`${what}: twist within a fifth and 0.01`, Math.abs(twist!.value - bias) <= 0.2 * Math.abs(bias) + 0.01);
        count(`${what}: interval of the twist`, contains(twist, bias));
        const whole = two!.measures["spin-bias"]!.value;
        count(`${what}: whole spin bias within as much`, Math.abs(whole - bias) <= 0.2 * Math.abs(bias) + 0.01);
        const leaning = two?.perMotor["tilt-by-motor"]?.find((one) => one.motor === other);
        count(`${what}: interval of the tilt`, contains(leaning, (2 * Math.PI) / 180));
      }
      if (process.env.VERBOSE) {
        const words = (e: ThrustImbalanceEvidence | undefined) =>
          e === undefined ? "none" : `${e.pattern}(${e.motors}) ${e.confidence.toFixed(2)} [${e.alternatives}]`;
        console.log(
          name,
          k,
          "m",
          motor,
          "| 5B",
          words(five),
          "| 10",
          words(ten),
          "| cg",
          words(cg),
          missed.toFixed(4),
          "| tilt",
          degrees,
          ((angleFound * 180) / Math.PI).toFixed(2),
          words(tilt),
        );
      }
    }
    // A long study shows its table on the way.
    if ((k + 1) % SHOWN_EVERY === 0 || k + 1 === SEEDS) show(counts);
  }
  expect(counts.size).toBeGreaterThan(0);
});
