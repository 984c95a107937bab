import { dirname, join } from "node:path";
import { isMap, isNode, parseDocument } from "yaml";
import type * as z from "zod";
import { type Aircraft, parseAircraft, readAircraft } from "../../aircraft/index.ts";
import { InputError, parseYaml, readText } from "../../input/index.ts";
import { BUILT_IN_AIRCRAFT } from "../built-in/aircraft.ts";
import type { Fault } from "../faults/fault.ts";
import { type Scenario, scenarioFileSchema } from "./scenario.ts";

type ScenarioFile = z.infer<typeof scenarioFileSchema>;

/**
 * Reads a scenario file (`*.yaml`). Its `aircraft` is a built-in aircraft's name, the path of an aircraft file beside
 * it, or an aircraft written out in the form of an aircraft file.
 *
 * @throws InputError with line and key where it is missing, not YAML, or cannot be flown
 */
export async function readScenario(file: string): Promise<Scenario> {
  const text = await readText(file);
  const yaml = parseYaml(text, file, scenarioFileSchema as unknown as z.ZodType<ScenarioFile>);
  const { aircraft: reference, ...rest } = yaml.content;
  const aircraft = await resolveAircraft(reference, text, file, yaml.lineOf(["aircraft"]));
  for (const [index, fault] of rest.faults.entries()) {
    const problem = unfit(fault, aircraft);
    if (problem === null) continue;
    const line = yaml.lineOf(["faults", index, problem.key]);
    const place = { file, key: `faults.${index}.${problem.key}`, ...(line === undefined ? {} : { line }) };
    throw new InputError(place, problem.what, problem.remedy);
  }
  return { ...rest, aircraft };
}

async function resolveAircraft(
  reference: ScenarioFile["aircraft"],
  text: string,
  file: string,
  line: number | undefined,
): Promise<Aircraft> {
  if (typeof reference !== "string") return parseAircraft(aircraftPart(text), file);
  const builtIn = BUILT_IN_AIRCRAFT[reference];
  if (builtIn !== undefined) return builtIn;
  if (!/\.ya?ml$/i.test(reference)) {
    const names = Object.keys(BUILT_IN_AIRCRAFT).join(", ");
    const place = { file, key: "aircraft", ...(line === undefined ? {} : { line }) };
    throw new InputError(place, `no built-in aircraft "${reference}"`, `name an aircraft file or one of ${names}`);
  }
  return readAircraft(join(dirname(file), reference));
}

/** The text with all but the aircraft blanked out, so that what is wrong in it is told by its true line. */
function aircraftPart(text: string): string {
  const { contents } = parseDocument(text);
  const node = isMap(contents) ? contents.get("aircraft", true) : undefined;
  if (!isNode(node) || !node.range) return text;
  const [start, , end] = node.range;
  return text.slice(0, start).replace(/[^\n]/g, " ") + text.slice(start, end);
}

/** What a schema cannot see: a motor that the aircraft does not have, an end before its start. */
function unfit(fault: Fault, { motors }: Aircraft): { key: string; what: string; remedy: string } | null {
  if ("motor" in fault && fault.motor > motors.length) {
    return { key: "motor", what: `there is no motor ${fault.motor}`, remedy: `the aircraft has ${motors.length}` };
  }
  if (fault.end !== undefined && fault.end <= fault.start) {
    return {
      key: "end",
      what: `end ${fault.end} is not after start ${fault.start}`,
      remedy: "give seconds of the log",
    };
  }
  return null;
}
