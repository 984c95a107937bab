import { createHash } from "node:crypto";
import { type Aircraft, parseAircraft } from "./aircraft/index.ts";
import { type Chart, chartsFor } from "./charts/index.ts";
import { DETECTORS, type Evidence } from "./detect/index.ts";
import { type Diagnosis, type Finding, makeFindings } from "./findings/index.ts";
import { buildFlight, type Flight } from "./flight/index.ts";
import { motorNames, phaseName } from "./flight-words.ts";
import { readText } from "./input/index.ts";
import { type Log, loadLog, type Progress } from "./log/index.ts";
import { VERSION } from "./version.ts";

export interface DiagnoseOptions {
  /** channel map file; without one, columns are matched by the words in their names */
  readonly channels?: string | undefined;
  /** aircraft file; without one, all that needs no geometry is examined */
  readonly aircraft?: string | undefined;
  /** s on the log's own clock; what lies outside is not examined */
  readonly from?: number | undefined;
  readonly to?: number | undefined;
  /** of everything that draws random numbers, default 1 */
  readonly seed?: number | undefined;
  /** time of the run, default now */
  readonly at?: Date | undefined;
  readonly onProgress?: ((progress: Progress) => void) | undefined;
}

/** A diagnosis with what it was made from and the charts that go with it. */
export interface Diagnosed {
  readonly diagnosis: Diagnosis;
  readonly charts: readonly Chart[];
  readonly flight: Flight;
}

/**
 * The whole journey from a log to what is known about the flight:
 *
 *     file -> Log -> Flight -> evidence -> findings -> charts -> Diagnosis
 *
 * @param file the log, any kind that `loadLog` reads
 * @throws InputError in one line where the log, the map or the aircraft file cannot be used
 */
export async function diagnose(file: string, options: DiagnoseOptions = {}): Promise<Diagnosed> {
  const described = options.aircraft === undefined ? null : await readAircraftFile(options.aircraft);
  const log = await loadLog(file, options);
  const flight = buildFlight(log, described?.aircraft ?? null);
  const { evidence, notExamined } = examine(flight);
  const findings = makeFindings({ evidence, motorName: motorNames(flight), phaseName });
  const { charts, byFinding } = chartsFor(flight, findings);
  const shown = findings.map((finding): Finding => ({ ...finding, charts: [...(byFinding.get(finding.id) ?? [])] }));
  const diagnosis: Diagnosis = {
    schema: "fettle/diagnosis@1",
    run: {
      version: VERSION,
      at: (options.at ?? new Date()).toISOString(),
      options: statedOptions(options),
      seed: options.seed ?? 1,
      channels: log.mapping.file === null ? null : { file: log.mapping.file, sha256: log.mapping.sha256! },
      aircraft: described === null ? null : { file: described.file, sha256: described.sha256 },
      baseline: null,
    },
    log: describeLog(log),
    aircraft: { ...flight.aircraft },
    phases: flight.phases.map((phase) => ({ ...phase })),
    findings: shown,
    notExamined,
    measures: {
      airTime: { value: flight.airborne.reduce((sum, { start, end }) => sum + end - start, 0), unit: "s" },
      airTimeBy: flight.airborneBy,
      airborne: flight.airborne.map((span) => ({ ...span })),
    },
  };
  return { diagnosis, charts, flight };
}

/** Runs every detector that has its channels; the others are told with what they lack. */
function examine(flight: Flight): { evidence: Evidence[]; notExamined: Diagnosis["notExamined"] } {
  const evidence: Evidence[] = [];
  const notExamined: Diagnosis["notExamined"] = [];
  for (const detector of DETECTORS) {
    const needs = detector.missing(flight);
    if (needs.length > 0) notExamined.push({ kind: detector.kind, needs });
    else evidence.push(...detector.detect(flight));
  }
  return { evidence, notExamined };
}

async function readAircraftFile(file: string): Promise<{ file: string; sha256: string; aircraft: Aircraft }> {
  const text = await readText(file);
  return { file, sha256: createHash("sha256").update(text).digest("hex"), aircraft: parseAircraft(text, file) };
}

function describeLog(log: Log): Diagnosis["log"] {
  return {
    file: log.file,
    sha256: log.sha256,
    rows: log.rows,
    duration: log.duration,
    start: log.start,
    channels: [...log.channels.values()].map(({ name, column, unit, rate, coverage, longestGap }) => ({
      name,
      column,
      unit,
      rate,
      coverage,
      longestGap,
    })),
    matches: log.mapping.matches.map(({ channel, column, unit, confidence, why }) => ({
      channel,
      column,
      unit,
      confidence,
      why,
    })),
    questions: log.mapping.questions.map(({ channel, column, text }) => ({ channel, column, text })),
  };
}

function statedOptions({ channels, aircraft, from, to, seed }: DiagnoseOptions): Record<string, unknown> {
  const stated = Object.entries({ channels, aircraft, from, to, seed });
  return Object.fromEntries(stated.filter(([, value]) => value !== undefined));
}
