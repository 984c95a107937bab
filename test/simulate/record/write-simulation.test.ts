import { mkdtemp, readdir, readFile, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { gunzipSync } from "node:zlib";
import { DuckDBInstance } from "@duckdb/node-api";
import { afterAll, beforeAll, expect, test } from "vitest";
import { parse } from "yaml";
import { readAircraft } from "../../../src/aircraft/index.ts";
import {
  builtInScenario,
  defineScenario,
  readScenario,
  simulate,
  truthSchema,
  writeSimulation,
} from "../../../src/simulate/index.ts";
import { builtInAircraft } from "../support/flights.ts";

let folder = "";
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "fettle test's "));
});
afterAll(() => rm(folder, { recursive: true, force: true }));

const simulation = simulate(
  defineScenario({
    name: "small",
    aircraft: builtInAircraft("coaxial-octo"),
    mission: [
      { do: "aloft", height: 20 },
      { do: "hover", seconds: 4 },
    ],
    faults: [{ kind: "weak-motor", motor: 5, loss: 0.1 }],
    controller: { attitude: { roll: 3, pitch: 3, yaw: 1 } },
  }),
);

test("writes log, map, aircraft, truth and scenario, and no half files", async () => {
  const directory = join(folder, "csv");
  const written = await writeSimulation(simulation, directory);
  expect((await readdir(directory)).sort()).toEqual(
    ["flight.aircraft.yaml", "flight.channels.yaml", "flight.csv", "scenario.yaml", "truth.json"].sort(),
  );
  truthSchema.parse(JSON.parse(await readFile(written.truth, "utf8")));
  expect(await readAircraft(written.aircraft)).toEqual(simulation.aircraft);
  const header = (await readFile(written.log, "utf8")).split("\n", 1)[0]!.split(",");
  const map = parse(await readFile(written.channels, "utf8"));
  const mapped = [map.time.column, ...Object.values<{ column: string }>(map.channels).map(({ column }) => column)];
  expect(mapped).toEqual(header);
});

test("the written scenario flies the same flight again", async () => {
  const written = await writeSimulation(simulation, join(folder, "again"));
  const again = await readScenario(written.scenario);
  expect(again).toEqual(simulation.scenario);
});

test("every built-in scenario survives being written and read", async () => {
  for (const name of ["short-boom", "long-boom", "hover-check", "gusty-day"]) {
    const scenario = builtInScenario(name)!;
    const written = await writeSimulation({ ...simulation, scenario, aircraftFile: simulation.aircraftFile }, folder);
    expect(await readScenario(written.scenario)).toEqual({ ...scenario, aircraft: simulation.aircraft });
  }
});

test("gzip holds the same text, and the same bytes each time", async () => {
  const one = await writeSimulation(simulation, join(folder, "one"), { format: "csv.gz" });
  const two = await writeSimulation(simulation, join(folder, "two"), { format: "csv.gz" });
  const plain = await writeSimulation(simulation, join(folder, "plain"), { format: "csv" });
  const bytes = await readFile(one.log);
  expect(bytes.equals(await readFile(two.log))).toBe(true);
  expect(gunzipSync(bytes).toString()).toBe(await readFile(plain.log, "utf8"));
});

test("Parquet holds every row and column, empty cells as nulls", async () => {
  const written = await writeSimulation(simulation, join(folder, "parquet"), { format: "parquet" });
  const instance = await DuckDBInstance.create(":memory:");
  const connection = await instance.connect();
  const path = written.log.replaceAll("'", "''");
  const result = await connection.runAndReadAll(
    `SELECT count(*) AS n, count(battery_v) AS volts, sum(roll_rate_deg_s) AS total FROM read_parquet('${path}')`,
  );
  const [[rows, volts, total]] = result.getRows() as unknown as [[bigint, bigint, number]];
  expect(Number(rows)).toBe(simulation.log.rows);
  expect(Number(volts)).toBe(Math.ceil(simulation.log.rows / 20));
  const rolls = simulation.log.columns.find(({ channel }) => channel === "rate.roll.measured")!.values;
  expect(total).toBeCloseTo(
    rolls.reduce((sum, value) => sum + value, 0),
    6,
  );
  connection.closeSync();
  instance.closeSync();
});
