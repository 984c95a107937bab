// How well oscillations are found, timed and explained, over seeded simulated flights. Prints Markdown tables.
import { test } from "vitest";
import type { Estimate } from "../../src/detect/evidence.ts";
import { type OscillationEvidence, oscillation } from "../../src/detect/index.ts";
import { oscillationLevel } from "../../src/findings/kinds/oscillation.ts";
import { FALSE_ALARMS, type Flight } from "../../src/flight/flight.ts";
import { quantile } from "../../src/signal/index.ts";
import type { Truth } from "../../src/simulate/index.ts";
import { simulatedFlight } from "../detect/simulated-flight.ts";
import { drawScenario, STUDY_KINDS, type StudyKind } from "./oscillation-scenarios.ts";

const seeds = Number(process.env.SEEDS ?? 40);
const first = Number(process.env.FIRST ?? 1);
/** "1/2" and "2/2": one of several processes that share the seeds, each with its own table */
const [shard, shards] = (process.env.SHARD ?? "1/1").split("/").map(Number) as [number, number];
/** false alarms an hour that are asked of the detector, healthy flights only; the first is the default */
const SETTINGS = [FALSE_ALARMS, 2, 5];
const kinds = (process.env.KINDS?.split(",") as StudyKind[] | undefined) ?? STUDY_KINDS;
const inDetail = process.env.DETAIL !== undefined;

const DRIVER = { loop: "controller", delay: "controller", outside: "external", load: "coupled" } as const;

interface Row {
  readonly kind: StudyKind;
  /** true cycles above three times the calm rms: what recall is asked of */
  readonly cycles: number;
  readonly isGrowing: boolean;
  readonly found: OscillationEvidence | undefined;
  readonly onsetError: number | null;
  /** whether the onset's interval holds the truth */
  readonly isOnsetHeld: boolean | null;
  readonly frequencyError: number | null;
  readonly growth: { readonly truth: number; readonly is: number; readonly isClear: boolean } | null;
}

/** Fewest true cycles of an oscillation, and of one that grows (the contract). */
const FEWEST = { other: 5, growing: 3 };

interface Tally {
  hours: number;
  loud: number;
  /** per setting: findings of any level but what was commanded */
  readonly any: number[];
}

const seconds = { simulated: 0, simulating: 0, detecting: 0 };

function flown(kind: StudyKind, seed: number) {
  const start = performance.now();
  const made = simulatedFlight(drawScenario(kind, seed));
  seconds.simulating += (performance.now() - start) / 1000;
  seconds.simulated += made.truth.duration;
  return made;
}

function detected(flight: Flight): OscillationEvidence[] {
  const start = performance.now();
  const found = oscillation.detect(flight);
  seconds.detecting += (performance.now() - start) / 1000;
  return found;
}

const levelOf = (one: OscillationEvidence, evidence: readonly OscillationEvidence[]) =>
  oscillationLevel(one, { evidence, motorName: String, phaseName: String });

test("oscillation", () => {
  const rows: Row[] = [];
  const tallies: Record<"healthy" | "asked", Tally> = {
    healthy: { hours: 0, loud: 0, any: SETTINGS.map(() => 0) },
    asked: { hours: 0, loud: 0, any: SETTINGS.map(() => 0) },
  };
  for (const kind of kinds) {
    for (let seed = first + shard - 1; seed < first + seeds; seed += shards) {
      const { flight, truth } = flown(kind, seed);
      const all = detected(flight);
      if (kind === "healthy" || kind === "asked") {
        count(kind, seed, flight, all, truth.duration, tallies[kind]);
        if (kind === "asked") {
          const found = all.find(({ axis }) => axis === truth.sticks[0]?.axis);
          const nothing = { onsetError: null, isOnsetHeld: null, frequencyError: null, growth: null };
          rows.push({ kind, cycles: Number.POSITIVE_INFINITY, isGrowing: false, found, ...nothing });
        }
      } else rows.push(...rowOf(kind, seed, truth, all));
    }
  }
  report(rows);
  reliability(rows);
  for (const [kind, { hours, loud, any }] of Object.entries(tallies)) {
    if (hours === 0) continue;
    console.log(
      `\n${kind}: ${hours.toFixed(2)} h, ${loud} cautions or warnings (upper 95 % bound ${(poissonUpper(loud) / hours).toFixed(2)} an hour).`,
    );
    if (kind === "healthy")
      for (const [k, setting] of SETTINGS.entries())
        console.log(
          `asked for ${setting} false oscillations an hour: ${any[k]} in ${hours.toFixed(2)} h, ${(any[k]! / hours).toFixed(2)} an hour (95 %: ${(poissonLower(any[k]!) / hours).toFixed(2)} to ${(poissonUpper(any[k]!, 0.025) / hours).toFixed(2)}).`,
        );
  }
  const hours = seconds.simulated / 3600;
  console.log(
    `\n${hours.toFixed(2)} h simulated; ${(seconds.simulating / hours).toFixed(0)} s to simulate an hour (twins included), ${(seconds.detecting / hours).toFixed(0)} s to look at one.`,
  );
});

function count(
  kind: StudyKind,
  seed: number,
  flight: Flight,
  all: readonly OscillationEvidence[],
  duration: number,
  tally: Tally,
) {
  tally.hours += duration / 3600;
  tally.loud += all.filter((one) => ["caution", "warning"].includes(levelOf(one, all))).length;
  if (inDetail) for (const one of all) console.log(kind, seed, levelOf(one, all), detail(one));
  if (kind !== "healthy") return;
  for (const [k, falseAlarms] of SETTINGS.entries()) {
    const found = falseAlarms === flight.falseAlarms ? all : detected({ ...flight, falseAlarms });
    tally.any[k]! += found.filter(({ driver }) => driver !== "commanded").length;
  }
}

function rowOf(kind: StudyKind, seed: number, truth: Truth, all: readonly OscillationEvidence[]): Row[] {
  const fault = truth.faults[0];
  if (fault === undefined || fault.frequency === null || fault.visible === null) {
    if (inDetail) console.log(kind, seed, "not visible", fault?.amplitude, fault?.calm);
    return [];
  }
  const cycles = ((truth.crash ?? fault.faded!) - fault.visible) * fault.frequency;
  const found = all.find(({ axis }) => axis === fault.axis);
  if (inDetail)
    console.log(
      kind,
      seed,
      `truth f ${fault.frequency.toFixed(2)} visible ${fault.visible.toFixed(2)} cycles ${cycles.toFixed(1)} growth ${fault.growth?.toFixed(2)} A ${fault.amplitude?.toFixed(2)} calm ${fault.calm?.toFixed(3)} crash ${truth.crash}`,
      found ? detail(found) : "MISSED",
    );
  const growth = found?.measures.growth;
  const isClear = growth !== undefined && Math.abs(growth.value) > (3 * (growth.high! - growth.low!)) / 3.92;
  return [
    {
      kind,
      cycles,
      isGrowing: fault.trend === "growing",
      found,
      onsetError: found ? Math.abs(found.start - fault.visible) / Math.max(1, 3 / fault.frequency) : null,
      isOnsetHeld: found ? holds(found.measures.onset!, fault.visible) : null,
      frequencyError: found ? Math.abs(found.measures.frequency!.value / fault.frequency - 1) : null,
      growth: growth && fault.growth ? { truth: fault.growth, is: growth.value, isClear } : null,
    },
  ];
}

/** Where the motion was there when the data began the interval has no lower end. */
const holds = ({ low = Number.NEGATIVE_INFINITY, high }: Estimate, truth: number) => low <= truth && truth <= high!;

const wantedOf = (kind: StudyKind) => (kind === "asked" ? "commanded" : DRIVER[kind as keyof typeof DRIVER]);
const isLong = ({ cycles, isGrowing }: Row) => cycles >= (isGrowing ? FEWEST.growing : FEWEST.other);
const percent = (part: number, whole: number, digits = 0) =>
  whole === 0 ? "-" : `${((100 * part) / whole).toFixed(digits)} %`;

/**
 * Recall is asked of motion that keeps above three times the calm rms for as long as an oscillation has to last (five
 * true cycles, three if it grows); "of all visible" counts shorter ones as well.
 */
function report(rows: readonly Row[]): void {
  const columns =
    "flights | n | found | n of all visible | found | onset in time | interval holds it | median frequency error | 95th percentile | growth sign right | driver right | wrong | wrong above 0.9 | undetermined".split(
      " | ",
    );
  console.log(`\n| ${columns.join(" | ")} |\n|${" --- |".repeat(columns.length)}`);
  for (const kind of [...kinds, null]) {
    const own = rows.filter((row) => kind === null || row.kind === kind);
    if (own.length === 0) continue;
    const long = own.filter(isLong);
    const found = own.filter((row) => row.found !== undefined);
    const errors = Float64Array.from(found.flatMap(({ frequencyError }) => frequencyError ?? []));
    const clear = found.flatMap(({ growth }) => (growth?.isClear ? [growth] : []));
    const timed = found.filter(({ onsetError }) => onsetError !== null);
    const undecided = found.filter((row) => row.found!.driver === "undetermined").length;
    const right = found.filter((row) => row.found!.driver === wantedOf(row.kind)).length;
    const wrong = found.length - undecided - right;
    const sure = found.filter(
      ({ kind: of, found: one }) =>
        one!.driver !== "undetermined" && one!.driver !== wantedOf(of) && one!.decision.confidence > 0.9,
    ).length;
    const cells = [
      kind ?? "all",
      long.length,
      percent(long.filter((row) => row.found !== undefined).length, long.length),
      own.length,
      percent(found.length, own.length),
      percent(timed.filter(({ onsetError }) => onsetError! <= 1).length, timed.length),
      percent(timed.filter(({ isOnsetHeld }) => isOnsetHeld).length, timed.length),
      errors.length === 0 ? "-" : `${(100 * quantile(errors, 0.5)).toFixed(2)} %`,
      errors.length === 0 ? "-" : `${(100 * quantile(errors, 0.95)).toFixed(1)} %`,
      percent(clear.filter(({ truth, is }) => truth * is > 0).length, clear.length),
      percent(right, right + wrong),
      wrong,
      `${sure} (${percent(sure, found.length, 1)})`,
      percent(undecided, found.length),
    ];
    console.log(`| ${cells.join(" | ")} |`);
  }
}

/** Stated confidence of the driver against the share in which it is right. */
function reliability(rows: readonly Row[]): void {
  console.log("\n| stated confidence of the driver | n | mean stated | right |\n| --- | --- | --- | --- |");
  const edges = [0.8, 0.85, 0.9, 0.94, 1];
  for (let k = 0; k + 1 < edges.length; k++) {
    const own = rows.filter(({ found }) => {
      const stated = found === undefined || found.driver === "undetermined" ? -1 : found.decision.confidence;
      return stated >= edges[k]! && (stated < edges[k + 1]! || edges[k + 1] === 1);
    });
    const mean = own.reduce((sum, { found }) => sum + found!.decision.confidence, 0) / own.length;
    const right = own.filter(({ kind, found }) => found!.driver === wantedOf(kind)).length;
    console.log(
      `| ${edges[k]} to ${edges[k + 1]} | ${own.length} | ${own.length > 0 ? mean.toFixed(2) : "-"} | ${percent(right, own.length, 1)} |`,
    );
  }
}

/** Lower bound of a Poisson mean that fewer events than these leave out in 97.5 % (Garwood 1936). */
function poissonLower(events: number): number {
  return events === 0 ? 0 : poissonUpper(events - 1, 0.975);
}

/** Bound of a Poisson mean with which so many events or fewer come with this probability (Garwood 1936), by bisection. */
function poissonUpper(events: number, probability = 0.05): number {
  let [low, high] = [0, 20 + 3 * events];
  for (let n = 0; n < 60; n++) {
    const middle = (low + high) / 2;
    let [term, sum] = [Math.exp(-middle), 0];
    for (let k = 0; k <= events; k++) {
      sum += term;
      term *= middle / (k + 1);
    }
    if (sum > probability) low = middle;
    else high = middle;
  }
  return high;
}

function detail({ axis, start, end, driver, trend, decision, measures, periodicity }: OscillationEvidence): string {
  const { frequency, amplitude, growth, angle, cycles } = measures;
  const { drive, attitudeResponse: a, rateResponse: r } = decision;
  const d = (x: number | undefined) => (x === undefined ? "-" : x.toFixed(2));
  const loop = (x: typeof a) => (x === null ? "-" : `${d(x.gain)}/${d(x.lag)}/${d(x.coherence)}`);
  return `${axis} ${d(start)}-${d(end)} f ${d(frequency!.value)} A ${d(amplitude!.value)} ang ${d(angle!.value)} ${trend} ${d(growth!.value)} cyc ${d(cycles!.value)} per ${d(periodicity)} ${driver} ${decision.loop} ${decision.reason} th ${d(drive?.phase.value)} [${d(drive?.phase.low)} ${d(drive?.phase.high)}] sh ${d(drive?.share?.value)} c ${d(drive?.coherence)} rate ${loop(r)} att ${loop(a)}`;
}
