import { Command } from "commander";
import { VERSION } from "../src/index.ts";
import { addChannels } from "./commands/channels.ts";
import { type AddCommand, EXIT, type ExitStatus } from "./commands/command.ts";
import { addCompare } from "./commands/compare.ts";
import { addCompletion } from "./commands/completion.ts";
import { addDiagnose } from "./commands/diagnose.ts";
import { addExplain } from "./commands/explain.ts";
import { addSimulate } from "./commands/simulate.ts";
import type { Terminal } from "./terminal.ts";

const COMMANDS: readonly AddCommand[] = [addDiagnose, addCompare, addChannels, addSimulate, addExplain, addCompletion];

/** Runs the program on the words after its name and gives back its exit status. Errors come out as thrown. */
export async function runProgram(words: readonly string[], terminal: Terminal): Promise<ExitStatus> {
  let status: ExitStatus = EXIT.done;
  const program = new Command("fettle")
    .description(
      "Reads a multirotor's flight log and says whether it flew stably, how near its motors came to their limits and what to check next.",
    )
    .version(VERSION)
    .exitOverride()
    .configureOutput({ writeOut: (text) => terminal.out(text), writeErr: () => {} })
    .showSuggestionAfterError()
    .addHelpText(
      "after",
      `
A log as the only argument is diagnosed: fettle flight.csv
Two flights of one mission, before and after a change: fettle compare before.csv after.csv`,
    );
  for (const add of COMMANDS) {
    add(program, terminal, (result) => {
      status = result;
    });
  }
  for (const command of program.commands) command.exitOverride().configureOutput(program.configureOutput());
  await program.parseAsync(withDefaultCommand(words, program), { from: "user" });
  return status;
}

/** `fettle flight.csv` means `fettle diagnose flight.csv`: a log dragged onto the program is enough. */
function withDefaultCommand(words: readonly string[], program: Command): string[] {
  const [first] = words;
  const isKnown = first === "help" || program.commands.some((command) => command.name() === first);
  const looksLikeFile = first !== undefined && !first.startsWith("-") && /[./\\]/.test(first);
  return !isKnown && looksLikeFile ? ["diagnose", ...words] : [...words];
}
