import { readdirSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { readAircraft } from "../../src/aircraft/index.ts";
import { motorSaturation, thrustImbalance } from "../../src/detect/index.ts";
import { type Finding, makeFindings } from "../../src/findings/index.ts";
import { buildFlight, type Flight } from "../../src/flight/index.ts";
import { loadLog } from "../../src/log/index.ts";
import { realFlights } from "../support/index.ts";
import { printTable } from "./print-table.ts";

const folder = join(realFlights ?? "", "propellers");
const PREFIX = "motors-e9-";

async function load(name: string): Promise<Flight> {
  const log = await loadLog(join(folder, name), { channels: join(folder, "motors.channels.yaml") });
  return buildFlight(log, await readAircraft(join(folder, "nano.aircraft.yaml")));
}

function findingOf(flight: Flight, baseline: Flight | null): Finding | undefined {
  const evidence = [...motorSaturation.detect(flight), ...thrustImbalance.detect(flight, baseline)];
  const findings = makeFindings({ evidence, motorName: (motor) => `motor ${motor}`, phaseName: ({ kind }) => kind });
  return findings.find(({ kind }) => kind === "thrust-imbalance");
}

/** Millimetres cut off motor 3's propeller in all, or an added weight near it: the flights that must name motor 3. */
function mustNameThree(condition: string): boolean {
  if (condition.startsWith("add-weight")) return true;
  const [, cuts] = /^cut-m3-((?:[\d.]+mm-?)+)$/.exec(condition) ?? [];
  if (cuts === undefined) return false;
  const millimetres = cuts.split("-").map((part) => Number.parseFloat(part));
  return millimetres.filter((size) => size < 40).reduce((sum, size) => sum + size, 0) >= 3;
}

/** Motor 3 first, or the centre of gravity moved towards it (rear left). */
function namesThree(finding: Finding | undefined): boolean {
  if (finding === undefined) return false;
  if ((finding.motor ?? finding.motors?.[0]) === 3) return true;
  const { "cg-forward": forward, "cg-right": right } = finding.measures;
  if (
    ![finding.pattern, finding.besides].includes("centre-of-gravity") ||
    Array.isArray(forward) ||
    Array.isArray(right)
  )
    return false;
  return forward!.value < 0 && right!.value < 0;
}

function words(finding: Finding | undefined): string {
  if (finding === undefined) return "nothing";
  const motors = finding.motors ?? (finding.motor === undefined ? [] : [finding.motor]);
  const short = {
    "single-motor": "motor",
    "several-motors": "motors",
    "centre-of-gravity": "CG",
    "motor-group": "group",
  };
  const pattern = short[finding.pattern as keyof typeof short] ?? finding.pattern;
  const second =
    finding.besides === undefined ? "" : ` with ${short[finding.besides as keyof typeof short] ?? finding.besides}`;
  return `${pattern}${second}${motors.length > 0 ? ` ${motors.join("+")}` : ""} (${finding.severity})`;
}

const largest = (finding: Finding | undefined, motor: number): string => {
  const excess = finding?.measures.excess;
  return Array.isArray(excess) ? `${(100 * excess[motor - 1]!.value).toFixed(1)}` : "-";
};

/** `a, a, b` as `2 x a, b`. */
function counted(values: readonly string[]): string {
  const counts = new Map<string, number>();
  for (const value of values) counts.set(value, (counts.get(value) ?? 0) + 1);
  return [...counts].map(([value, count]) => (count === 1 ? value : `${count} x ${value}`)).join(", ");
}

test.skipIf(realFlights === null)("real flights with cut propellers and added weights", async () => {
  const files = readdirSync(folder).filter((file) => file.startsWith(PREFIX));
  const conditions = new Map<string, string[]>();
  for (const file of files) {
    const [, condition] = /^motors-e9-(.+)-\d\.csv\.gz$/.exec(file)!;
    conditions.set(condition!, [...(conditions.get(condition!) ?? []), file]);
  }
  const baselines = await Promise.all([1, 2, 3].map((k) => load(`${PREFIX}undamaged-${k}.csv.gz`)));
  const named = [0, 0, 0];
  const needed = [0, 0, 0];
  const rows: string[][] = [];
  for (const [condition, ofCondition] of conditions) {
    const flights = await Promise.all(ofCondition.map(load));
    const alone = flights.map((flight) => findingOf(flight, null));
    const compared = baselines.map((baseline) => flights.map((flight) => findingOf(flight, baseline)));
    if (mustNameThree(condition)) {
      for (const [b, findings] of compared.entries()) {
        needed[b]! += findings.length;
        named[b]! += findings.filter(namesThree).length;
      }
    }
    rows.push([
      condition,
      counted(alone.map(words)),
      counted(compared.flat().map(words)),
      [1, 2, 3, 4].map((motor) => largest(compared[1]![0], motor)).join(" "),
    ]);
  }
  printTable(
    ["condition", "alone", "against undamaged 1, 2 and 3", "change of motors 1-4 in %, first flight against 2"],
    rows,
  );
  for (const b of [0, 1, 2]) console.log(`against undamaged-${b + 1}: motor 3 named in ${named[b]} of ${needed[b]}`);
  expect(Math.min(...named)).toBeGreaterThanOrEqual(18);
});
