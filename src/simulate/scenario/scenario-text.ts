import { stringify } from "yaml";
import { defineScenario, type Scenario } from "./scenario.ts";

/**
 * A scenario as a YAML file that `readScenario` reads back to the same scenario. What equals its default is left out.
 *
 * @param aircraftFile name of the aircraft file that lies beside it
 */
export function scenarioText(scenario: Scenario, aircraftFile: string): string {
  const { aircraft, name, story, seed, mission, faults, ...rest } = scenario;
  const plain = defineScenario({ name, aircraft, mission });
  const told = { name, ...(story === "" ? {} : { story }), seed, aircraft: aircraftFile, ...differing(rest, plain) };
  return stringify({ ...told, mission, ...(faults.length === 0 ? {} : { faults }) }, { lineWidth: 110 });
}

/** The entries of `value` that are not the same in `other`, objects entry by entry. */
function differing(value: object, other: object): Record<string, unknown> {
  const found: Record<string, unknown> = {};
  for (const [key, mine] of Object.entries(value)) {
    const theirs = (other as Record<string, unknown>)[key];
    if (JSON.stringify(mine) === JSON.stringify(theirs)) continue;
    const isNested = isPlain(mine) && isPlain(theirs);
    found[key] = isNested ? differing(mine, theirs) : mine;
  }
  return found;
}

const isPlain = (value: unknown): value is object =>
  typeof value === "object" && value !== null && !Array.isArray(value);
