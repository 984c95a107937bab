import { spawn } from "node:child_process";
import { resolve } from "node:path";

/** Hands a file to whatever this system opens pages with, and does not wait for it. */
export function openInBrowser(file: string): void {
  const path = resolve(file);
  const [command, ...words] =
    process.platform === "darwin"
      ? ["open", path]
      : process.platform === "win32"
        ? ["explorer.exe", path]
        : ["xdg-open", path];
  const opener = spawn(command!, words, { detached: true, stdio: "ignore" });
  opener.on("error", () => process.stderr.write(`no program found that opens ${path}\n`));
  opener.unref();
}
