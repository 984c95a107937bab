export { ALERT_TABLE } from "./alert-levels.ts";
export { CAUTIONS, STANDING_CAUTIONS } from "./cautions.ts";
export { type Diagnosis, diagnosisJsonSchema, diagnosisSchema } from "./diagnosis.ts";
export { explainableKinds, explainKind } from "./explain.ts";
export { ALERT_LEVELS, type AlertLevel, type Finding, findingSchema } from "./finding.ts";
export type { FindingContext, FindingKind, FindingWords, KindGuide } from "./kind.ts";
export { makeFindings } from "./make-findings.ts";
export { refusalWords } from "./refusal-words.ts";
