import type { Command } from "commander";
import type { Terminal } from "../terminal.ts";

/** Exit status of every command. */
export const EXIT = { done: 0, found: 1, unusable: 2, fault: 3 } as const;
export type ExitStatus = (typeof EXIT)[keyof typeof EXIT];

/** One command of the program: it adds itself to the parser and hands its exit status back. */
export type AddCommand = (program: Command, terminal: Terminal, finish: (status: ExitStatus) => void) => void;
