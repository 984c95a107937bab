import { mkdir, rename, rm, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { gzipSync } from "node:zlib";
import { scenarioText } from "../scenario/scenario-text.ts";
import type { Simulation } from "../simulate.ts";
import { csvText } from "./csv.ts";
import { writeParquet } from "./parquet.ts";

export const LOG_FORMATS = ["csv", "csv.gz", "parquet"] as const;
export type LogFormat = (typeof LOG_FORMATS)[number];

export interface WriteOptions {
  /** default `csv` */
  readonly format?: LogFormat;
}

/** The files that were written, by what they are; full paths. */
export interface WrittenSimulation {
  readonly log: string;
  readonly channels: string;
  readonly aircraft: string;
  readonly truth: string;
  readonly scenario: string;
}

/**
 * Writes a simulated flight into a folder, which is made if need be: the log, its channel map, its aircraft file, the
 * truth, and the scenario that flies it again. Each file gets its name only when it is whole.
 */
export async function writeSimulation(
  simulation: Simulation,
  directory: string,
  options: WriteOptions = {},
): Promise<WrittenSimulation> {
  const { format = "csv" } = options;
  await mkdir(directory, { recursive: true });
  const names = {
    log: `flight.${format}`,
    channels: "flight.channels.yaml",
    aircraft: "flight.aircraft.yaml",
    truth: "truth.json",
    scenario: "scenario.yaml",
  };
  const put = (name: string, content: string | Uint8Array) =>
    whole(join(directory, name), (file) => writeFile(file, content));
  if (format === "parquet") await whole(join(directory, names.log), (file) => writeParquet(simulation.log, file));
  else
    await put(names.log, format === "csv" ? csvText(simulation.log) : gzipSync(csvText(simulation.log), { level: 9 }));
  await put(names.channels, simulation.map);
  await put(names.aircraft, simulation.aircraftFile);
  await put(names.truth, `${JSON.stringify(simulation.truth, null, 1)}\n`);
  await put(names.scenario, scenarioText(simulation.scenario, names.aircraft));
  return {
    log: join(directory, names.log),
    channels: join(directory, names.channels),
    aircraft: join(directory, names.aircraft),
    truth: join(directory, names.truth),
    scenario: join(directory, names.scenario),
  };
}

/** Writes under a temporary name and renames: nobody ever finds half a file. */
async function whole(file: string, write: (temporary: string) => Promise<void>): Promise<void> {
  const temporary = `${file}.${process.pid}.part`;
  try {
    await write(temporary);
    await rename(temporary, file);
  } catch (error) {
    await rm(temporary, { force: true });
    throw error;
  }
}
