import { spawnSync } from "node:child_process";
import { join } from "node:path";

const root = join(import.meta.dirname, "../..");

export const sample = (name: string) => join(root, "data-samples", name);

/** Runs the built program as a user would, and gives back what it printed and its exit status. */
export function runFettle(words: readonly string[], options: { cwd?: string; env?: NodeJS.ProcessEnv } = {}) {
  const { status, stdout, stderr } = spawnSync(process.execPath, [join(root, "dist/cli/main.js"), ...words], {
    encoding: "utf8",
    cwd: options.cwd ?? root,
    env: { ...process.env, ...options.env },
  });
  return { status, out: stdout, err: stderr };
}
