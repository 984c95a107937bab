import type { Aircraft } from "../aircraft/index.ts";
import { fly } from "./flight/fly.ts";
import { aircraftText, channelMapText } from "./record/companion-files.ts";
import { type LogTable, logTable } from "./record/log-table.ts";
import type { Scenario } from "./scenario/scenario.ts";
import { tellTruth } from "./truth/tell-truth.ts";
import type { Truth } from "./truth/truth.ts";

/** A simulated flight as a user meets it, and what really happened. */
export interface Simulation {
  readonly scenario: Scenario;
  readonly log: LogTable;
  readonly truth: Truth;
  readonly aircraft: Aircraft;
  /** the text of the channel map and of the aircraft file that belong to the log */
  readonly map: string;
  readonly aircraftFile: string;
}

/**
 * Flies a scenario and logs it. The same scenario gives the same numbers every time.
 * Besides the flight itself, each fault that moves an axis is flown around once more to learn what it did.
 */
export function simulate(scenario: Scenario): Simulation {
  const flown = fly(scenario);
  const log = logTable(flown);
  return {
    scenario,
    log,
    truth: tellTruth(flown),
    aircraft: scenario.aircraft,
    map: channelMapText(log),
    aircraftFile: aircraftText(scenario.aircraft),
  };
}
