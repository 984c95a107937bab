import type { Progress } from "../src/index.ts";
import type { Terminal } from "./terminal.ts";

/** ms; what is quicker needs no progress line */
const PATIENCE = 1000;

/** A line that appears on a terminal when reading takes longer than a second, and wipes itself when done. */
export function progressLine(terminal: Terminal, purpose: string) {
  const began = Date.now();
  let isShown = false;
  return {
    update({ rows, share }: Progress): void {
      if (!terminal.showsProgress || Date.now() - began < PATIENCE) return;
      isShown = true;
      const part = share === null ? "" : `, ${Math.floor(share * 100)} %`;
      terminal.err(`\r\u001b[K${purpose}: ${rows.toLocaleString("en")} rows${part}`);
    },
    clear(): void {
      if (isShown) terminal.err("\r\u001b[K");
      isShown = false;
    },
  };
}
