// Times a whole diagnosis against the script an engineer would write instead, in turns, on the 10-minute, 1000 Hz table.
//
//   node test/bench/diagnosis-bench.mjs [ROUNDS]
//
// Prints the medians of the pairwise ratios of wall time and of peak memory (GNU time). Needs the compiled program, GNU
// time, and the bench folder beside the repository with Debian's pandas, SciPy and Matplotlib.
import { spawnSync } from "node:child_process";
import { existsSync, mkdirSync, readFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";

const root = join(fileURLToPath(import.meta.url), "../../..");
const shared = join(root, "../shared/bench");
const rounds = Number(process.argv[2] ?? 5);
const python = ["/usr/bin/python3", "python3"].find(
  (name) => spawnSync(name, ["-c", "import pandas, scipy, matplotlib"]).status === 0,
);
const gnuTime = ["/usr/bin/time", "time"].find((name) => spawnSync(name, ["-v", "true"]).status === 0);
if (!existsSync(shared) || python === undefined || gnuTime === undefined) {
  console.log(
    "diagnosis bench SKIPPED: it needs ../shared/bench, GNU time, and python3 with pandas, SciPy and Matplotlib",
  );
  process.exit(0);
}

const work = join(tmpdir(), "fettle-bench");
mkdirSync(work, { recursive: true });
const stem = join(work, "ten-minutes");
if (!existsSync(`${stem}.aircraft.yaml`)) {
  console.log("making the 10-minute, 1000 Hz table");
  if (spawnSync(python, [join(shared, "make_log.py"), "10", "1000", `${stem}.csv`], { stdio: "inherit" }).status !== 0)
    process.exit(1);
}

/** Wall time in s and peak memory in MB of one command. */
function measure(words) {
  const report = join(work, "time.txt");
  const { status, stderr } = spawnSync(gnuTime, ["-v", "-o", report, ...words], { encoding: "utf8" });
  if (status !== 0) throw new Error(`${words.join(" ")} failed:\n${stderr}`);
  const text = readFileSync(report, "utf8");
  const [, clock] = /Elapsed .*: ((?:\d+:)*[\d.]+)\n/.exec(text);
  const seconds = clock.split(":").reduce((sum, part) => sum * 60 + Number(part), 0);
  return { seconds, megabytes: Number(/Maximum resident set size \(kbytes\): (\d+)/.exec(text)[1]) / 1024 };
}

const main = join(root, "dist/cli/main.js");
const files = [`${stem}.csv`, "--channels", `${stem}.channels.yaml`, "--aircraft", `${stem}.aircraft.yaml`];
const ours = () =>
  measure([process.execPath, main, "diagnose", ...files, "--out", join(work, "ours"), "--format", "html,json"]);
const peer = () => measure([python, join(shared, "peer.py"), `${stem}.csv`, join(work, "peer")]);

const pairs = [];
for (let round = 0; round < rounds; round++) {
  const pair = round % 2 === 0 ? { ours: ours(), peer: peer() } : { peer: peer(), ours: ours() };
  pairs.push(pair);
  const words = ({ seconds, megabytes }) => `${seconds.toFixed(1)} s, ${megabytes.toFixed(0)} MB`;
  console.log(`round ${round + 1}: ours ${words(pair.ours)}; peer ${words(pair.peer)}`);
}
const median = (values) => values.sort((a, b) => a - b)[Math.floor(values.length / 2)];
const ratio = (key) => median(pairs.map(({ ours, peer }) => ours[key] / peer[key])).toFixed(3);
console.log(
  `diagnosis against the peer, medians of ${rounds} pairs: wall time ${ratio("seconds")}, peak memory ${ratio("megabytes")}`,
);
