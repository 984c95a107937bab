import { Argument } from "commander";
import { ALERT_LEVELS, explainableKinds, LOG_FORMATS, listScenarios } from "../../src/index.ts";
import { type Choices, completionScript, SHELLS, type Shell } from "../completion-script.ts";
import { FORMATS } from "./arguments.ts";
import { type AddCommand, EXIT } from "./command.ts";

const CHOICES: Choices = {
  "--fail-on": ALERT_LEVELS,
  "--format": FORMATS,
  "--log": LOG_FORMATS,
  "explain kind": explainableKinds(),
  "simulate scenario": listScenarios().map(({ name }) => name),
  "completion shell": SHELLS,
};

export const addCompletion: AddCommand = (program, terminal, finish) => {
  program
    .command("completion")
    .summary("print what a shell needs to complete the words of fettle")
    .description("Prints the script with which a shell completes the words of fettle.")
    .addArgument(new Argument("<shell>", "the shell").choices(SHELLS))
    .addHelpText("after", "\nExamples:\n  source <(fettle completion bash)\n  fettle completion fish | source")
    .action((shell: Shell) => {
      terminal.out(completionScript(program, CHOICES, shell));
      finish(EXIT.done);
    });
};
