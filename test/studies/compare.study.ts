import { writeFileSync } from "node:fs";
import { expect, test } from "vitest";
import {
  type ComparedFlights,
  compare,
  flownConditions,
  type JudgedRow,
  measureFlight,
  type NextStep,
  quantityId,
  TABLES,
} from "../../src/compare/index.ts";
import { headroomOf } from "../../src/detect/index.ts";
import type { Flight } from "../../src/flight/index.ts";
import { mean, randomGenerator } from "../../src/signal/index.ts";
import { endedAt, flyMission, LONGER_BOOM } from "../compare/simulated-pair.ts";
import { printTable } from "./print-table.ts";

/** Trials; each flies three times. */
const PAIRS = Number(process.env.PAIRS ?? 20);
const FIRST = Number(process.env.FIRST ?? 1);
const SPEEDS = [4, 7, 10, 13];
const NEXT = 16;

type Row = Extract<JudgedRow, { kind: "compared" }>;

test(`comparisons of ${PAIRS} simulated pairs`, () => {
  const changed: ComparedFlights[] = [];
  const unchanged: ComparedFlights[] = [];
  const foretold: { item: string; low: number; high: number; truth: number }[] = [];
  let undone = 0;
  for (let k = FIRST; k < FIRST + PAIRS; k++) {
    const random = randomGenerator(k);
    const wind = () => ({ speed: 5 * random.uniform(), from: 360 * random.uniform() });
    const before = flyMission({ seed: 10 * k, speeds: SPEEDS, wind: wind() });
    const whole = flyMission({ seed: 10 * k + 1, speeds: [...SPEEDS, NEXT], wind: wind(), faults: [LONGER_BOOM] });
    const again = flyMission({ seed: 10 * k + 2, speeds: SPEEDS, wind: wind() });
    const beyond = flownConditions(whole).find(({ speed }) => speed !== null && speed > NEXT - 1.5);
    if (beyond === undefined) {
      undone++;
      continue;
    }
    // What comes before the speeding up to the last step is the flight that a crew would have.
    const after = endedAt(whole, beyond.replicates[0]!.start - 14);
    const pair = compare(before, after, { next: NEXT });
    const twin = compare(before, again, { next: NEXT });
    if (pair.kind !== "compared" || twin.kind !== "compared") throw new Error("a pair was refused");
    changed.push(pair);
    unchanged.push(twin);
    foretold.push(...outcomes(pair.nextStep!, whole, beyond));
    if (process.env.OUT) store(process.env.OUT, changed, unchanged, foretold);
  }
  coverage(changed);
  falseAlarms(unchanged);
  printTable(
    ["forecast", "held", "of", "share"],
    [...new Set(foretold.map(({ item }) => item)), "all"].map((item) => {
      const of = foretold.filter((one) => item === "all" || one.item === item);
      const held = of.filter(({ low, high, truth }) => low <= truth && truth <= high).length;
      return [item, String(held), String(of.length), share(held / of.length)];
    }),
  );
  console.log(`trials that did not fly the next step: ${undone}`);
  expect(changed.length).toBeGreaterThan(0);
});

const share = (value: number) => `${(100 * value).toFixed(1)} %`;

/** Each forecast of room beside what the simulator then did on the legs of the next step; damping has no such truth. */
function outcomes(step: NextStep, whole: Flight, beyond: ReturnType<typeof flownConditions>[number]) {
  const measured = measureFlight(whole, flownConditions(whole), new Map());
  return step.forecasts.flatMap(({ key, motor, axis, next }) => {
    const values = beyond.replicates.flatMap((leg) => {
      if (key === "authority") return measured.valueOf(`authority-${axis}`, leg) ?? [];
      if (motor === undefined) return [];
      return headroomOf(whole, motor, leg)?.[key === "headroom-above" ? "above" : "below"] ?? [];
    });
    return values.length === 0 ? [] : [{ item: key, low: next.low, high: next.high, truth: mean(values) }];
  });
}

/**
 * How often intervals hold the truth. Of power it is the ratio in still air; of what gusts make (errors, swings,
 * percentiles of commands) it is the mean over all trials.
 */
function coverage(all: readonly ComparedFlights[]) {
  const calm = compare(
    flyMission({ seed: 1, speeds: SPEEDS, gusts: 0 }),
    flyMission({ seed: 2, speeds: SPEEDS, gusts: 0, faults: [LONGER_BOOM] }),
  );
  if (calm.kind !== "compared") throw new Error("the calm pair was refused");
  const rowsOf = ({ tables }: ComparedFlights) => TABLES.flatMap((table) => tables[table]);
  const name = ({ quantity, condition }: JudgedRow) => `${quantityId(quantity)} ${condition}`;
  const byName = new Map<string, JudgedRow[]>();
  for (const row of all.flatMap(rowsOf)) byName.set(name(row), [...(byName.get(name(row)) ?? []), row]);
  const tallies = new Map<string, { held: number; of: number; none: number; widths: number[] }>();
  for (const [id, rows] of byName) {
    const compared = rows.filter((row): row is Row => row.kind === "compared");
    const isRatio = rows[0]!.quantity.scale === "ratio";
    const [to, from] = isRatio ? [Math.log1p, Math.expm1] : [Number, Number];
    const still = rowsOf(calm).find((row) => name(row) === id);
    const truth =
      rows[0]!.quantity.key === "power" && still?.kind === "compared"
        ? still.difference.value
        : from(mean(compared.map(({ difference }) => to(difference.value))));
    const group = rows[0]!.quantity.key;
    const tally = tallies.get(group) ?? { held: 0, of: 0, none: 0, widths: [] };
    for (const { difference } of compared) {
      if (difference.low <= truth && truth <= difference.high) tally.held++;
      tally.of++;
      tally.widths.push(difference.high - difference.low);
    }
    tally.none += rows.length - compared.length;
    tallies.set(group, tally);
  }
  printTable(
    ["interval of", "covered", "of", "median width", "not enough data"],
    [...tallies].map(([group, { held, of, none, widths }]) => [
      group,
      share(held / of),
      String(of),
      widths.toSorted((a, b) => a - b)[widths.length >> 1]!.toPrecision(2),
      String(none),
    ]),
  );
}

/** Tables of an unchanged aircraft that name a difference, and those that would have without correction. */
function falseAlarms(all: readonly ComparedFlights[]) {
  const isNamed = ({ verdict }: JudgedRow) => ["better", "worse", "changed"].includes(verdict);
  const isPerhaps = (row: JudgedRow) => row.kind === "compared" && row.pValue < 0.05;
  const rows = [...TABLES, "all"].map((table) => {
    const tables = all.flatMap((one) =>
      TABLES.filter((id) => table === "all" || id === table).map((id) => one.tables[id]),
    );
    const named = tables.filter((rows) => rows.some(isNamed)).length;
    const uncorrected = tables.filter((rows) => rows.some(isPerhaps)).length;
    return [table, String(tables.length), share(named / tables.length), share(uncorrected / tables.length)];
  });
  printTable(["table", "tables", "name a difference", "without correction"], rows);
}

function store(
  file: string,
  changed: readonly ComparedFlights[],
  unchanged: readonly ComparedFlights[],
  foretold: readonly object[],
) {
  const rows = (all: readonly ComparedFlights[]) =>
    all.map(({ tables }) =>
      TABLES.flatMap((table) =>
        tables[table].map((row) => ({
          id: quantityId(row.quantity),
          table,
          key: row.quantity.key,
          condition: row.condition,
          scale: row.quantity.scale,
          ...(row.kind === "compared"
            ? { d: row.difference, p: row.pValue, adj: row.adjusted, df: row.degreesOfFreedom, term: row.windTerm }
            : {}),
        })),
      ),
    );
  writeFileSync(file, JSON.stringify({ changed: rows(changed), unchanged: rows(unchanged), foretold }));
}
