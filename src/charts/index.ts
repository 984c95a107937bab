export { CHARTS_BY_KIND, type FindingChart } from "./by-kind.ts";
export type { Chart } from "./chart.ts";
export { chartsFor, type FlightCharts } from "./charts-for.ts";
export { chartCommandDistribution } from "./command-distribution.ts";
export { chartDataQuality } from "./data-quality.ts";
export { type DisplayUnit, displayUnit } from "./display-unit.ts";
export { type Drawing, type LineRow, prepareDrawing } from "./drawing.ts";
export { envelope, type Trace } from "./envelope.ts";
export { findingName } from "./finding-name.ts";
export { findingWindow, mergeSpans } from "./finding-window.ts";
export { chartFromAbove } from "./from-above.ts";
export { chartMotorCommand } from "./motor-command.ts";
export { chartMotorCommands } from "./motor-commands.ts";
export {
  capital,
  countWords,
  durationWords,
  numberWords,
  percentWords,
  secondsWords,
  withDecimals,
} from "./number-words.ts";
export { plainText } from "./plain-text.ts";
export { CHART_FONT, DARK, LIGHT, type Palette } from "./theme.ts";
export { CHART_WIDTH, type ReadoutLine } from "./time-chart.ts";
export { chartTimeline } from "./timeline.ts";
export { chartAxis, chartTracking } from "./tracking.ts";
