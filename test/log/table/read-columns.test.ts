import fc from "fast-check";
import { expect, test } from "vitest";
import { describeTable, readColumns } from "../../../src/log/index.ts";
import { csv, numbers, temporaryFolder } from "../../support/index.ts";

const folder = temporaryFolder();

test("any table of numbers comes back as written, whatever its columns are called", async () => {
  const name = fc.string({ unit: fc.constantFrom("a", "A", ",", '"', "\n", " ", "'", "[", "*", "é", ";", "{", "$") });
  const cell = fc.option(fc.double({ noNaN: true, noDefaultInfinity: true }), { nil: Number.NaN });
  const table = fc.integer({ min: 2, max: 5 }).chain((width) =>
    fc.record({
      names: fc.array(name, { minLength: width, maxLength: width }),
      rows: fc.array(fc.array(cell, { minLength: width, maxLength: width }), { minLength: 1, maxLength: 40 }),
    }),
  );
  await fc.assert(
    fc.asyncProperty(table, async ({ names, rows }) => {
      const header = names.map((one) => `"${one.replaceAll('"', '""')}"`).join(",");
      const lines = rows.map((row) => row.map((value) => (Number.isNaN(value) ? "" : String(value))).join(","));
      const described = await describeTable(folder.write("any.csv", `${[header, ...lines].join("\n")}\n`));
      expect(described.columns.map((column) => column.name)).toEqual(names);
      const positions = names.map((_, at) => at).reverse();
      const { numbers: read, rows: count } = await readColumns(described, positions);
      expect(count).toBe(rows.length);
      for (const at of positions) expect([...read.get(at)!]).toEqual(rows.map((row) => row[at]! + 0));
    }),
    { numRuns: 25, seed: 11 },
  );
});

test("only wanted columns are converted: words in the others do no harm", async () => {
  const table = await describeTable(folder.write("words.csv", "t,a\n0,1\n1,2\n2,oops\n"));
  const { numbers: read } = await readColumns(table, [0]);
  expect([...read.get(0)!]).toEqual([0, 1, 2]);
});

test("missing cells are NaN wherever they fall in the engine's chunks", async () => {
  const n = 10_000;
  const isMissing = (i: number) => i % 97 === 3 || (i > 4090 && i < 4110);
  const cells = Array.from({ length: n }, (_, i) => (isMissing(i) ? "" : String(i)));
  const table = await describeTable(folder.write("holes.csv", csv({ t: numbers(n, (i) => i), a: cells })));
  const { numbers: read } = await readColumns(table, [1]);
  expect(read.get(1)!).toEqual(numbers(n, (i) => (isMissing(i) ? Number.NaN : i)));
});

test("rows keep their order although the engine reads on several cores", async () => {
  const n = 150_000;
  const table = await describeTable(
    folder.write("order.csv", csv({ t: numbers(n, (i) => i), a: numbers(n, (i) => -i) })),
  );
  const { numbers: read, rows } = await readColumns(table, [0, 1]);
  expect(rows).toBe(n);
  expect(read.get(0)!).toEqual(numbers(n, (i) => i));
});

test("arrays grow where the first rows promise too few", async () => {
  const n = 50_000;
  const long = numbers(2000, (i) => 1 + i / 3e9);
  const values = [...long, ...numbers(n, (i) => i % 9)];
  const table = await describeTable(folder.write("grow.csv", csv({ a: values, b: values })));
  const { numbers: read } = await readColumns(table, [0, 1]);
  expect(read.get(1)!).toEqual(Float64Array.from(values));
});
