// Times the numerics against SciPy on this machine, in turns, and prints the median of the ratios of neighbours.
// Run after `npm run build`: node test/bench/signal-bench.mjs [rounds] [python]
import { spawn } from "node:child_process";
import { createInterface } from "node:readline";
import { fileURLToPath } from "node:url";
import {
  butterworth,
  filterZeroPhase,
  linearCongruential,
  matrixPencil,
  powerSpectralDensity,
  shortTimeSpectra,
} from "../../dist/src/signal/index.js";

const rounds = Number(process.argv[2] ?? 15);
const python = process.argv[3] ?? "/usr/bin/python3";

const long = linearCongruential(1, 600_000).map((u) => u - 0.5);
const noise = linearCongruential(2, 500);
const ringing = noise.map((u, n) => {
  const t = n / 250;
  const first = Math.exp(-0.5 * t) * Math.cos(2 * Math.PI * 3 * t);
  const second = 0.6 * Math.exp(-0.2 * t) * Math.cos(2 * Math.PI * 7.5 * t + Math.PI / 4);
  return first + second + 0.02 * (u - 0.5);
});
const band = butterworth(4, [5, 80], 1000);

const jobs = {
  welch: () => powerSpectralDensity(long, 1000, { segmentLength: 4096 }),
  spectrogram: () => shortTimeSpectra(long, 1000, { segmentLength: 4096 }),
  "zero-phase": () => filterZeroPhase(band, long),
  "matrix-pencil": () => matrixPencil(ringing, 250, { order: 4, refine: false }),
};

// OpenBLAS picks its own kernel for this processor, whatever the surroundings say.
const { OPENBLAS_CORETYPE: _type, OPENBLAS_L2_SIZE: _size, ...environment } = process.env;
const script = fileURLToPath(new URL("scipy_side.py", import.meta.url));
const other = spawn(python, [script], { stdio: ["pipe", "pipe", "inherit"], env: environment });
const answers = createInterface({ input: other.stdout })[Symbol.asyncIterator]();
const median = (values) => values.toSorted((a, b) => a - b)[values.length >> 1];

console.log(`${(await answers.next()).value}; Node ${process.versions.node}; ${rounds} rounds in turns`);
console.log("job             ours ms   SciPy ms   ours / SciPy (median of pairs)");
for (const [name, job] of Object.entries(jobs)) {
  const pairs = [];
  for (let round = -3; round < rounds; round++) {
    const start = performance.now();
    job();
    const ours = performance.now() - start;
    other.stdin.write(`${name}\n`);
    const theirs = Number((await answers.next()).value);
    // The first rounds warm both sides up.
    if (round >= 0) pairs.push({ ours, theirs, ratio: ours / theirs });
  }
  const [ours, theirs, ratio] = ["ours", "theirs", "ratio"].map((key) => median(pairs.map((pair) => pair[key])));
  console.log(
    `${name.padEnd(14)} ${ours.toFixed(2).padStart(8)} ${theirs.toFixed(2).padStart(10)} ${ratio.toFixed(2).padStart(10)}`,
  );
}
other.stdin.end();
