import { type Chart, chartsFor } from "../../src/charts/index.ts";
import { type Diagnosis, diagnosisSchema } from "../../src/findings/diagnosis.ts";
import type { Finding } from "../../src/findings/finding.ts";
import type { Flight } from "../../src/flight/flight.ts";
import { surveyFindings } from "../charts/survey-findings.ts";
import { type SurveyOptions, surveyFlight } from "../charts/survey-flight.ts";

/** A whole diagnosis with its charts, as the command line hands it over. */
export interface Survey {
  readonly flight: Flight;
  readonly diagnosis: Diagnosis;
  readonly charts: readonly Chart[];
}

export function surveyDiagnosis(options: SurveyOptions = {}, found?: readonly Finding[]): Survey {
  const flight = surveyFlight(options);
  const findings = found ?? surveyFindings(flight.log.duration);
  const { charts, byFinding } = chartsFor(flight, findings);
  const diagnosis: Diagnosis = {
    schema: "fettle/diagnosis@1",
    run: {
      version: "0.1.0",
      at: "2026-11-24T21:00:00Z",
      options: {},
      seed: 1,
      channels: null,
      aircraft: { file: "heron.aircraft.yaml", sha256: "a1".repeat(32) },
      baseline: null,
    },
    log: {
      file: flight.log.file,
      sha256: flight.log.sha256,
      rows: flight.log.rows,
      duration: flight.log.duration,
      start: flight.log.start,
      channels: [...flight.log.channels.values()].map(({ name, column, unit, rate, coverage, longestGap }) => ({
        name,
        column,
        unit,
        rate,
        coverage,
        longestGap,
      })),
      matches: [...flight.log.channels.values()].slice(0, 4).map(({ name, column }) => ({
        channel: name,
        column,
        unit: "deg/s",
        confidence: 0.94,
        why: "axis word and rate, and values that fit deg/s",
      })),
      questions: [
        {
          channel: "rate.yaw.measured",
          column: flight.log.channels.get("rate.yaw.measured")?.column ?? "",
          text: "The column holds values up to 4; are they degrees per second?",
        },
      ],
    },
    aircraft: JSON.parse(JSON.stringify(flight.aircraft ?? {})) as Record<string, unknown>,
    phases: flight.phases.map((phase) => ({ ...phase })),
    findings: findings.map((finding) => ({ ...finding, charts: [...(byFinding.get(finding.id) ?? [])] })),
    notExamined: [
      { kind: "integrator-windup", needs: ["rate.roll.integrator", "rate.pitch.integrator"] },
      { kind: "battery", needs: ["battery.voltage"] },
      {
        kind: "motor-response",
        needs: ["motor.1.speed"],
        why: "Rotor speed or motor current shows whether a motor follows.",
      },
    ],
    measures: {},
  };
  return { flight, diagnosis: diagnosisSchema.parse(diagnosis), charts };
}
