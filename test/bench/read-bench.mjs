// Times reading a log against the table engine's own scan of the same columns, in turns.
//
//   node test/bench/read-bench.mjs [LOG.csv MAP.channels.yaml [ROUNDS]]
//
// Without a log it takes the 10-minute table that diagnosis-bench.mjs makes.
//
// Prints, for each way of reading, the median of the pairwise ratios of wall time and of processor time: single times
// mean little on a machine that does other things too. Needs the compiled library (npm run build).
import { existsSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { DuckDBInstance } from "@duckdb/node-api";
import { describeTable, loadLog, readChannelMap, readColumns } from "../../dist/src/log/index.js";

const made = join(tmpdir(), "fettle-bench", "ten-minutes");
const [log = `${made}.csv`, mapFile = `${made}.channels.yaml`, rounds = "7"] = process.argv.slice(2);
if (!existsSync(mapFile)) {
  console.log(`read bench SKIPPED: no ${mapFile}; run diagnosis-bench.mjs first`);
  process.exit(0);
}

const table = await describeTable(log);
const map = await readChannelMap(mapFile);
const columns = [map.time.column, ...[...map.channels.values()].map(({ column }) => column)];
const positions = [...new Set(columns)].map((name) => table.columns.findIndex((column) => column.name === name));
const fields = table.columns.map((_, at) => `c${at}: '${positions.includes(at) ? "DOUBLE" : "VARCHAR"}'`).join(", ");
const sums = positions.map((at) => `sum(c${at})`).join(", ");

/** The least that the engine must do: find and convert the cells of the same columns. */
const scan = async () => {
  const source = `read_csv('${log}', auto_detect = false, header = true, delim = '${table.dialect.separator}', quote = '"', columns = {${fields}})`;
  const instance = await DuckDBInstance.create(":memory:");
  const connection = await instance.connect();
  await (await connection.run(`SELECT ${sums} FROM ${source}`)).getRows();
  connection.closeSync();
  instance.closeSync();
};

const ways = [
  ["columns into typed arrays", () => readColumns(table, positions)],
  ["whole log: columns, checksum, clock, quality", () => loadLog(log, { channels: mapFile })],
];

async function timed(work) {
  const processor = process.cpuUsage();
  const start = performance.now();
  await work();
  const wall = (performance.now() - start) / 1000;
  const { user, system } = process.cpuUsage(processor);
  return { wall, processor: (user + system) / 1e6 };
}

const median = (values) => values.toSorted((a, b) => a - b)[values.length >> 1];

await scan();
const pairs = ways.map(() => []);
for (let round = 0; round < Number(rounds); round++) {
  for (const [at, [, work]] of ways.entries()) {
    const base = await timed(scan);
    pairs[at].push({ base, own: await timed(work) });
  }
}
console.log(`${positions.length} of ${table.columns.length} columns, ${rounds} pairs each`);
for (const [at, [title]] of ways.entries()) {
  const ratio = (kind) => median(pairs[at].map(({ base, own }) => own[kind] / base[kind])).toFixed(2);
  const scanned = median(pairs[at].map(({ base }) => base.wall)).toFixed(2);
  console.log(
    `${title}: wall ${ratio("wall")} x, processor ${ratio("processor")} x the scan (which took ${scanned} s)`,
  );
}
