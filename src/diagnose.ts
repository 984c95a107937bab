import { createHash } from "node:crypto";
import { type Aircraft, parseAircraft } from "./aircraft/index.ts";
import { type Chart, chartsFor } from "./charts/index.ts";
import { compareTrims, DETECTORS, type Evidence, thrustImbalance } from "./detect/index.ts";
import { type Diagnosis, type Finding, makeFindings, refusalWords } from "./findings/index.ts";
import { aircraftQuestions, buildFlight, commandedMotors, type Flight } from "./flight/index.ts";
import { motorNames, phaseName } from "./flight-words.ts";
import { InputError, readText } from "./input/index.ts";
import { type Log, loadLog, type Progress, SAID_BY_MAP } from "./log/index.ts";
import { statedOptions } from "./stated-options.ts";
import { VERSION } from "./version.ts";

export interface DiagnoseOptions {
  /** channel map file; without one, columns are matched by the words in their names */
  readonly channels?: string | undefined;
  /** aircraft file; without one, all that needs no geometry is examined */
  readonly aircraft?: string | undefined;
  /** log of a good flight of the same aircraft to compare with */
  readonly baseline?: string | undefined;
  /** channel map of the baseline, default the same as for the log */
  readonly baselineChannels?: string | undefined;
  /** aircraft file of the baseline, where mass or layout was another; default the same as for the log */
  readonly baselineAircraft?: string | undefined;
  /** s on the log's own clock; what lies outside is not examined */
  readonly from?: number | undefined;
  readonly to?: number | undefined;
  /** false oscillations an hour of flight that are accepted, 0.001 to 100; default 0.5 */
  readonly falseAlarms?: number | undefined;
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

/** A log with what was found in it, before anything is drawn. */
export interface Examined {
  readonly log: Log;
  readonly flight: Flight;
  readonly findings: readonly Finding[];
  readonly notExamined: Diagnosis["notExamined"];
  /** the files that it was examined with, as a run states them */
  readonly files: Pick<Diagnosis["run"], "channels" | "aircraft" | "baseline" | "baselineAircraft">;
}

/**
 * The journey from a log to what was found:
 *
 *     file -> Log -> Flight -> evidence -> findings
 *
 * @param file the log, any kind that `loadLog` reads
 * @throws InputError in one line where the log, the map or the aircraft file cannot be used
 */
export async function examineLog(file: string, options: DiagnoseOptions = {}): Promise<Examined> {
  const described = options.aircraft === undefined ? null : await readAircraftFile(options.aircraft);
  const log = await loadLog(file, options);
  const flight = buildFlight(log, described?.aircraft ?? null, options.falseAlarms);
  const questions = [...log.mapping.questions, ...aircraftQuestions(log, flight.aircraft)];
  const baseline = await loadBaseline(options, flight.aircraft);
  const { evidence, notExamined } = examine(flight, baseline?.flight ?? null);
  return {
    log: { ...log, mapping: { ...log.mapping, questions } },
    flight,
    findings: makeFindings({ evidence, motorName: motorNames(flight), phaseName }),
    notExamined,
    files: {
      channels: log.mapping.file === null ? null : { file: log.mapping.file, sha256: log.mapping.sha256! },
      aircraft: described === null ? null : { file: described.file, sha256: described.sha256 },
      baseline: baseline === null ? null : { file: baseline.log.file, sha256: baseline.log.sha256 },
      ...(baseline?.aircraftFile && {
        baselineAircraft: { file: baseline.aircraftFile.file, sha256: baseline.aircraftFile.sha256 },
      }),
    },
  };
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
  const { log, flight, findings, notExamined, files } = await examineLog(file, options);
  const { charts, byFinding } = chartsFor(flight, findings);
  const shown = findings.map((finding): Finding => ({ ...finding, charts: [...(byFinding.get(finding.id) ?? [])] }));
  const { channels, aircraft, baseline, baselineChannels, baselineAircraft, from, to, falseAlarms, seed } = options;
  const diagnosis: Diagnosis = {
    schema: "fettle/diagnosis@1",
    run: {
      version: VERSION,
      at: (options.at ?? new Date()).toISOString(),
      options: statedOptions({
        channels,
        aircraft,
        baseline,
        baselineChannels,
        baselineAircraft,
        from,
        to,
        falseAlarms,
        seed,
      }),
      seed: seed ?? 1,
      ...files,
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

/** The good flight to compare with, read with the same map and aircraft file unless it has its own. */
async function loadBaseline(options: DiagnoseOptions, aircraft: Aircraft | null) {
  if (options.baseline === undefined) {
    if (options.baselineAircraft === undefined) return null;
    throw new InputError({ file: options.baselineAircraft }, "no baseline that it could hold for", "give --baseline");
  }
  if (aircraft === null) {
    const problem = "a baseline needs the aircraft file of the flight that is examined";
    throw new InputError({ file: options.baseline }, problem, "give it with --aircraft");
  }
  const own = options.baselineAircraft === undefined ? null : await readAircraftFile(options.baselineAircraft);
  const log = await loadLog(options.baseline, { channels: options.baselineChannels ?? options.channels });
  const flight = buildFlight(log, own?.aircraft ?? aircraft);
  if (commandedMotors(flight).length > 0) return { log, flight, aircraftFile: own };
  throw new InputError({ file: options.baseline }, "no motor command in the baseline", "map motor.1.command and so on");
}

/**
 * Runs every detector that has its channels; the others are told with what they lack. Where the baseline does not
 * compare, the comparison is told as not examined and the flight is judged alone.
 */
function examine(
  flight: Flight,
  baseline: Flight | null,
): { evidence: Evidence[]; notExamined: Diagnosis["notExamined"] } {
  const evidence: Evidence[] = [];
  const notExamined: Diagnosis["notExamined"] = [];
  for (const detector of DETECTORS) {
    const needs = detector.missing(flight);
    if (needs.length > 0) notExamined.push({ kind: detector.kind, needs });
    else evidence.push(...detector.detect(flight, baseline));
  }
  const compared = baseline === null ? null : compareTrims(flight, baseline);
  if (compared?.kind === "refused") {
    notExamined.push({ kind: thrustImbalance.kind, needs: ["a baseline that compares"], why: refusalWords(compared) });
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
    matches: log.mapping.matches
      .filter(({ why }) => why !== SAID_BY_MAP)
      .map(({ channel, column, unit, confidence, why }) => ({ channel, column, unit, confidence, why })),
    questions: log.mapping.questions.map(({ channel, column, text }) => ({ channel, column, text })),
  };
}
