export { type Aircraft, type Axis, type Motor, parseAircraft, readAircraft } from "./aircraft/index.ts";
export { type Chart, chartsFor } from "./charts/index.ts";
export { type CompareFlightsOptions, compareFlights, type FlightsCompared } from "./compare-flights.ts";
export { DETECTORS, type Detector, type Estimate, type Evidence } from "./detect/index.ts";
export { type Diagnosed, type DiagnoseOptions, diagnose } from "./diagnose.ts";
export { type Comparison, comparisonJsonSchema, comparisonSchema } from "./findings/comparison/index.ts";
export {
  ALERT_LEVELS,
  type AlertLevel,
  type Diagnosis,
  diagnosisJsonSchema,
  diagnosisSchema,
  explainableKinds,
  explainKind,
  type Finding,
  type KindGuide,
} from "./findings/index.ts";
export { buildFlight, type Flight, type Phase } from "./flight/index.ts";
export { InputError, type Place } from "./input/index.ts";
export * from "./log/index.ts";
export {
  renderComparisonPage,
  renderComparisonText,
  renderComparisonTicket,
  renderPage,
  renderPng,
  renderReportText,
  renderSpec,
  renderSvg,
  renderText,
  renderTicket,
  safeFileName,
  type Ticket,
} from "./report/index.ts";
export * as signal from "./signal/index.ts";
export * from "./simulate/index.ts";
export { VERSION } from "./version.ts";
export { plainText } from "./words/index.ts";
