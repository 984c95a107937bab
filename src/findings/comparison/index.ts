export {
  type Comparison,
  type ComparisonForecast,
  type ComparisonRow,
  type ComparisonTable,
  comparisonJsonSchema,
  comparisonSchema,
} from "./comparison.ts";
export { comparisonRefusal } from "./comparison-refusal.ts";
export { changeWords, differenceWords, levelWords, rangeWords } from "./difference-words.ts";
export { type ComparisonContext, makeComparison } from "./make-comparison.ts";
export { forecastValue } from "./next-step-words.ts";
export { conditionNames, detectableWords } from "./statements.ts";
