export { BUILT_IN_AIRCRAFT } from "./built-in/aircraft.ts";
export { type BuiltInScenario, builtInScenario, listScenarios } from "./built-in/scenarios.ts";
export { type Fault, type FaultInput, type FaultKind, faultSchema } from "./faults/fault.ts";
export type { Task } from "./mission/mission.ts";
export type { LogColumn, LogTable } from "./record/log-table.ts";
export { simulatedSeries } from "./record/simulated-series.ts";
export {
  LOG_FORMATS,
  type LogFormat,
  type WriteOptions,
  type WrittenSimulation,
  writeSimulation,
} from "./record/write-simulation.ts";
export { readScenario } from "./scenario/read-scenario.ts";
export { defineScenario, type Scenario, type ScenarioInput, scenarioJsonSchema } from "./scenario/scenario.ts";
export { type Simulation, simulate } from "./simulate.ts";
export { type FaultTruth, type Truth, truthJsonSchema, truthSchema } from "./truth/truth.ts";
