// Puts the command line into one file: Node takes three times as long to start it from some six hundred.
import { rmSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { build } from "esbuild";

const root = join(dirname(fileURLToPath(import.meta.url)), "..");

// The parts are named after what they hold: those of an earlier build would stay beside the new ones.
rmSync(join(root, "dist/cli"), { recursive: true, force: true });

await build({
  absWorkingDir: root,
  entryPoints: ["cli/main.ts"],
  outdir: "dist/cli",
  bundle: true,
  // What is loaded only when asked for stays in files of its own.
  splitting: true,
  format: "esm",
  platform: "node",
  target: "node20",
  sourcemap: true,
  // Native code, and what a page is made from file by file.
  external: ["@duckdb/node-bindings*", "@resvg/resvg-js", "dejavu-fonts-ttf", "vega", "vega-interpreter", "vega-lite"],
  // Packages in the older module format ask for others by a function that this format lacks.
  banner: {
    js: 'import { createRequire as requireFrom } from "node:module"; const require = requireFrom(import.meta.url);',
  },
  logLevel: "warning",
});
