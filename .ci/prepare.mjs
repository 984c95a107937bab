// Installs and builds what is missing, so that `npm start` and `npm test` work alone on a fresh clone.
// Plain Node without packages: it runs before there are any.
import { spawnSync } from "node:child_process";
import { existsSync, readdirSync, statSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

const root = join(dirname(fileURLToPath(import.meta.url)), "..");

const [major, minor] = process.versions.node.split(".").map(Number);
if (major < 20 || (major === 20 && minor < 19)) {
  console.error(`Fettle needs Node 20.19 or later; this is ${process.versions.node}.`);
  process.exit(2);
}

const changedAt = (path) => (existsSync(path) ? statSync(path).mtimeMs : 0);

function newestBelow(folder) {
  let newest = 0;
  for (const entry of readdirSync(folder, { withFileTypes: true, recursive: true })) {
    if (entry.isFile()) newest = Math.max(newest, changedAt(join(entry.parentPath, entry.name)));
  }
  return newest;
}

function run(words, purpose) {
  console.error(`fettle: ${purpose} (npm ${words.join(" ")})`);
  const npm = process.platform === "win32" ? "npm.cmd" : "npm";
  const { status } = spawnSync(npm, words, { cwd: root, stdio: ["ignore", 2, 2], shell: process.platform === "win32" });
  if (status !== 0) {
    console.error(`fettle: "npm ${words.join(" ")}" failed; its own words are above.`);
    process.exit(status ?? 1);
  }
}

const installed = changedAt(join(root, "node_modules/.package-lock.json"));
if (installed === 0 || installed < changedAt(join(root, "package-lock.json"))) {
  run(["ci", "--loglevel=error"], "installing what it needs");
}

const built = changedAt(join(root, "dist/cli/main.js"));
const sources = Math.max(
  ...["src", "cli"].map((folder) => newestBelow(join(root, folder))),
  ...["tsconfig.json", ".ci/bundle.mjs"].map((file) => changedAt(join(root, file))),
);
if (built < sources) run(["run", "build", "--silent"], "building");
