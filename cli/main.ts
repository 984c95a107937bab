#!/usr/bin/env node
import { CommanderError } from "commander";
import { InputError } from "../src/index.ts";
import { EXIT, type ExitStatus } from "./commands/command.ts";
import { runProgram } from "./program.ts";
import { processTerminal } from "./terminal.ts";

/** The only place that prints errors and sets the exit status. */
async function main(words: readonly string[]): Promise<ExitStatus> {
  const terminal = processTerminal();
  try {
    return await runProgram(words, terminal);
  } catch (error) {
    if (error instanceof InputError) {
      terminal.err(`${error.message}\n`);
      return EXIT.unusable;
    }
    if (error instanceof CommanderError) {
      if (error.exitCode === 0) return EXIT.done;
      // Called without a command the parser has already printed the help; its error says no more.
      if (error.code !== "commander.help") terminal.err(`${oneLine(error.message)}; see fettle --help\n`);
      return EXIT.unusable;
    }
    const { stack } = error as Error;
    terminal.err(`A fault in Fettle, not in your log; please report it with these lines:\n${stack ?? String(error)}\n`);
    return EXIT.fault;
  }
}

const oneLine = (message: string) =>
  message
    .replace(/^error: /, "")
    .replace(/\s+/g, " ")
    .replace(/\.$/, "")
    .trim();

// A reader that stops early (`| head`) closes the pipe; that is no fault.
process.stdout.on("error", (error: NodeJS.ErrnoException) => {
  if (error.code === "EPIPE") process.exit(EXIT.done);
  throw error;
});

process.exitCode = await main(process.argv.slice(2));
