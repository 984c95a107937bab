import type { Finding } from "../../src/findings/finding.ts";
import { surveyFindings } from "../charts/survey-findings.ts";
import { surveyFlight } from "../charts/survey-flight.ts";
import { ALL_NASTY, NASTY } from "./nasty.ts";
import { type Survey, surveyDiagnosis } from "./survey-diagnosis.ts";

/** The survey diagnosis with a hostile string wherever a log or an aircraft file can put one. */
export function nastySurvey(): Survey {
  const names = [...surveyFlight({ duration: 60 }).log.channels.keys()];
  const columns = Object.fromEntries(names.map((name, index) => [name, NASTY[index % NASTY.length]!]));
  const findings = surveyFindings(60).map(
    (finding): Finding => ({
      ...finding,
      channel: ALL_NASTY,
      summary: `${finding.summary} ${ALL_NASTY}`,
      meaning: ALL_NASTY,
      next: [...NASTY],
      cautions: [ALL_NASTY],
      method: ALL_NASTY,
      sources: [...NASTY],
    }),
  );
  const survey = surveyDiagnosis({ duration: 60, columns }, findings);
  const { diagnosis } = survey;
  return {
    ...survey,
    diagnosis: {
      ...diagnosis,
      log: {
        ...diagnosis.log,
        file: `logs/${ALL_NASTY}`,
        start: ALL_NASTY,
        questions: NASTY.map((text) => ({ channel: "mode", column: text, text })),
      },
      aircraft: { name: ALL_NASTY, notes: Object.fromEntries(NASTY.map((text) => [text, text])) },
      notExamined: NASTY.map((text) => ({ kind: text, needs: [text], why: text })),
    },
  };
}
