export type { AircraftDifference } from "./aircraft-difference.ts";
export { type ComparedFlights, type CompareOptions, compare, type RefusedComparison } from "./compare.ts";
export { type ComparedMission, compareMissions } from "./compare-missions.ts";
export {
  type Bounded,
  type ComparedRow,
  compareQuantity,
  type MeasuredCondition,
  type MeasuredReplicate,
} from "./compare-quantity.ts";
export { flutterMargin } from "./flutter-margin.ts";
export { type Forecast, forecastNextStep, type NextStep } from "./forecast.ts";
export { type JudgedRow, judgeTables, type Verdict } from "./judge-tables.ts";
export { type MeasuredFlight, measureFlight } from "./measure-flight.ts";
export type { ConditionPair, Unpaired } from "./pair-conditions.ts";
export { predictGrowth, predictLine } from "./predict-line.ts";
export { type Quantity, quantityId, TABLES, type TableName } from "./quantity.ts";
export { type FlownCondition, flownConditions, type Replicate } from "./replicates.ts";
export { airSpeeds } from "./wind.ts";
