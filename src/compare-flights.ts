import { type Chart, chartsForComparison } from "./charts/index.ts";
import { compare } from "./compare/index.ts";
import { type Examined, examineLog } from "./diagnose.ts";
import { type Comparison, comparisonRefusal, makeComparison } from "./findings/comparison/index.ts";
import { motorNames } from "./flight-words.ts";
import { InputError } from "./input/index.ts";
import type { Progress } from "./log/index.ts";
import { statedOptions } from "./stated-options.ts";
import { VERSION } from "./version.ts";

export interface CompareFlightsOptions {
  /** channel map file of both flights; without one, columns are matched by the words in their names */
  readonly channels?: string | undefined;
  /** aircraft file of both flights */
  readonly aircraft?: string | undefined;
  /** channel map and aircraft file of the flight before, where they are its own */
  readonly beforeChannels?: string | undefined;
  readonly beforeAircraft?: string | undefined;
  /** m/s of the next speed step; default the last increment once more */
  readonly next?: number | undefined;
  /** of everything that draws random numbers, default 1 */
  readonly seed?: number | undefined;
  /** time of the run, default now */
  readonly at?: Date | undefined;
  readonly onProgress?: ((progress: Progress) => void) | undefined;
}

/** A comparison with the charts that go with it. */
export interface FlightsCompared {
  readonly comparison: Comparison;
  readonly charts: readonly Chart[];
}

/**
 * The journey from two logs of one mission to what the change did:
 *
 *     two files -> two flights and their findings -> numbers side by side -> words -> charts -> Comparison
 *
 * @param before log of the flight before the change
 * @param after log of the flight after it
 * @throws InputError in one line where a file cannot be used, or the flights do not compare
 */
export async function compareFlights(
  before: string,
  after: string,
  options: CompareFlightsOptions = {},
): Promise<FlightsCompared> {
  const { channels, aircraft, beforeChannels, beforeAircraft, next, seed, at, onProgress } = options;
  const one = await examineLog(before, {
    channels: beforeChannels ?? channels,
    aircraft: beforeAircraft ?? aircraft,
    onProgress,
  });
  const other = await examineLog(after, { channels, aircraft, onProgress });
  const compared = compare(one.flight, other.flight, { next });
  if (compared.kind === "refused") {
    const { problem, remedy } = comparisonRefusal(compared);
    throw new InputError({ file: after }, problem, remedy);
  }
  checkNext(next, compared.nextStep?.fastest);
  const comparison = makeComparison(compared, {
    run: {
      version: VERSION,
      at: (at ?? new Date()).toISOString(),
      options: statedOptions({ channels, aircraft, beforeChannels, beforeAircraft, next, seed }),
      seed: seed ?? 1,
    },
    aircraft: { ...other.flight.aircraft },
    before: sideOf(one),
    after: sideOf(other),
    motorName: motorNames(other.flight),
  });
  return { comparison, charts: chartsForComparison(comparison) };
}

/** A next step that was flown already is no next step. */
function checkNext(next: number | undefined, fastest: number | undefined): void {
  if (next === undefined || fastest === undefined || next > fastest) return;
  const problem = `a next step of ${next} m/s is not above the fastest step flown, ${fastest.toFixed(1)} m/s`;
  throw new InputError({}, problem, "give a faster one with --next, or leave it out");
}

/** One flight as the comparison states it, with the cautions and warnings of its own diagnosis. */
function sideOf({ log, flight, findings, files }: Examined): Omit<Comparison["before"], "air"> {
  const { file, sha256, rows, duration, start } = log;
  return {
    log: { file, sha256, rows, duration, start },
    channels: files.channels,
    aircraft: files.aircraft,
    notes: { ...flight.aircraft?.notes },
    findings: findings
      .filter(({ severity }) => severity === "warning" || severity === "caution")
      .map((finding) => ({
        id: finding.id,
        kind: finding.kind,
        ...(finding.axis !== undefined && { axis: finding.axis }),
        severity: finding.severity,
        start: finding.start,
        summary: finding.summary,
      })),
  };
}
