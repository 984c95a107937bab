import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { readAircraft } from "../../src/aircraft/index.ts";
import { type ComparedFlights, compare, TABLES } from "../../src/compare/index.ts";
import { buildFlight } from "../../src/flight/index.ts";
import { loadLog } from "../../src/log/index.ts";
import { realFlights } from "../support/index.ts";

const folder = join(realFlights ?? "", "propellers");

async function flight(name: string) {
  const log = await loadLog(join(folder, `motors-e9-${name}.csv.gz`), {
    channels: join(folder, "motors.channels.yaml"),
  });
  return buildFlight(log, await readAircraft(join(folder, "nano.aircraft.yaml")));
}

async function compareReal(before: string, after: string): Promise<ComparedFlights> {
  const made = compare(await flight(before), await flight(after));
  if (made.kind !== "compared") throw new Error(`refused: ${made.reason}`);
  return made;
}

describe.skipIf(realFlights === null)("real flights of one small quadrotor (Masalimov and others 2024)", () => {
  test.each([
    ["undamaged-1", "undamaged-2"],
    ["undamaged-1", "undamaged-3"],
    ["undamaged-2", "undamaged-3"],
  ])("%s against %s, one build: no table names a difference", async (before, after) => {
    const { tables } = await compareReal(before, after);
    const rows = TABLES.flatMap((table) => tables[table]);
    expect(rows.length).toBeGreaterThan(8);
    expect(rows.filter(({ kind }) => kind === "compared").length).toBe(rows.length);
    expect(rows.filter(({ verdict }) => verdict !== "no-difference")).toEqual([]);
  });

  test.each(["1", "2", "3"])("a heavy weight near motor 3, flight %s: more command on motor 3", async (number) => {
    const { tables } = await compareReal(`undamaged-${number}`, `add-weight-w3-near-m3-${number}`);
    const ofMotor = (motor: number) => {
      const row = tables.motors.find(({ quantity }) => quantity.motor === motor);
      if (row?.kind !== "compared") throw new Error("expected an interval");
      return row;
    };
    expect(ofMotor(3).difference.low).toBeGreaterThan(0.1);
    expect(ofMotor(3).verdict).toBe("changed");
    for (const other of [1, 2, 4]) expect(ofMotor(other).difference.value).toBeLessThan(0.03);
  });
});
