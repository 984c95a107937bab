import { access } from "node:fs/promises";
import { InvalidArgumentError } from "commander";
import {
  builtInScenario,
  InputError,
  LOG_FORMATS,
  type LogFormat,
  listScenarios,
  readScenario,
  type Scenario,
  simulate,
  writeSimulation,
} from "../../src/index.ts";
import { checkWritable } from "../write-files.ts";
import { type AddCommand, EXIT } from "./command.ts";

interface SimulateArguments {
  readonly list?: boolean;
  readonly out?: string;
  readonly log: LogFormat;
}

export const addSimulate: AddCommand = (program, terminal, finish) => {
  program
    .command("simulate")
    .summary("fly an aircraft with known faults and log it")
    .description("Flies an aircraft with known faults and writes its log, channel map, aircraft file and the truth.")
    .argument("[scenario]", "scenario file (.yaml), or the name of a built-in one")
    .option("--out <dir>", "folder for the flight (default: NAME-flight here)")
    .option("--log <kind>", `kind of log file: ${LOG_FORMATS.join(" ")}`, logFormat, "csv" as LogFormat)
    .option("--list", "list the built-in scenarios")
    .addHelpText("after", "\nExamples:\n  fettle simulate --list\n  fettle simulate long-boom --out long-boom-flight")
    .action(async (scenario: string | undefined, { list, out, log }: SimulateArguments) => {
      if (list) {
        terminal.out(scenarioList());
        return finish(EXIT.done);
      }
      if (scenario === undefined) {
        throw new InputError({}, "no scenario was named", "give a file, or a name from fettle simulate --list");
      }
      const flown = await findScenario(scenario);
      const folder = out ?? `${flown.name}-flight`;
      await checkWritable(folder);
      const simulation = simulate(flown);
      const written = await writeSimulation(simulation, folder, { format: log });
      terminal.out(`Flown: ${flown.name}. Everything is in ${folder}\n\nTo diagnose it:\n`);
      const words = ["--channels", written.channels, "--aircraft", written.aircraft];
      terminal.out(`  fettle diagnose ${[written.log, ...words].map(shellWord).join(" ")}\n`);
      finish(EXIT.done);
    });
};

async function findScenario(name: string): Promise<Scenario> {
  const builtIn = builtInScenario(name);
  if (builtIn !== undefined) return builtIn;
  const isFile = await access(name).then(
    () => true,
    () => false,
  );
  if (!isFile && !/[./\\]/.test(name)) {
    const names = listScenarios().map((scenario) => scenario.name);
    throw new InputError({}, `no built-in scenario is called "${name}"`, `choose one of ${names.join(", ")}`);
  }
  return readScenario(name);
}

function scenarioList(): string {
  const scenarios = listScenarios();
  const widest = Math.max(...scenarios.map(({ name }) => name.length));
  return `${scenarios.map(({ name, story }) => `${name.padEnd(widest)}  ${story.replace(/\s+/g, " ").trim()}`).join("\n")}\n`;
}

function logFormat(text: string): LogFormat {
  if ((LOG_FORMATS as readonly string[]).includes(text)) return text as LogFormat;
  throw new InvalidArgumentError(`"${text}" is none of ${LOG_FORMATS.join(", ")}.`);
}

/** Quoted where a shell would take it apart. */
const shellWord = (word: string) => (/^[\w./-]+$/.test(word) ? word : `'${word.replaceAll("'", "'\\''")}'`);
