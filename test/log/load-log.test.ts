import { createHash } from "node:crypto";
import { readFileSync } from "node:fs";
import { gzipSync } from "node:zlib";
import { DuckDBInstance } from "@duckdb/node-api";
import { describe, expect, test } from "vitest";
import { loadLog } from "../../src/log/index.ts";
import { csv, messageOf, numbers, temporaryFolder } from "../support/index.ts";

const folder = temporaryFolder();
const n = 200;
const time = numbers(n, (i) => i / 100);
const rate = numbers(n, (i) => 10 * Math.sin(i / 7));
const table = { t: time, p: rate };
const map = folder.write(
  "log.channels.yaml",
  "time: { column: t, unit: s }\nchannels:\n  rate.roll.measured: { column: p, unit: deg/s }\n",
);

function mapWith(channels: string, time = "{ column: t, unit: s }"): string {
  return folder.write(`map-${Math.random()}.yaml`, `time: ${time}\nchannels:\n${channels}\n`);
}

test("a mapped column becomes a channel in SI units on the clock of the first row", async () => {
  const file = folder.write("plain.csv", csv({ t: time.map((moment) => moment + 5), p: rate }));
  const log = await loadLog(file, { channels: map });
  const { series, unit, column, coverage, gaps } = log.channels.get("rate.roll.measured")!;
  expect([log.rows, unit, column, coverage, gaps]).toEqual([n, "rad/s", "p", 1, []]);
  expect(log.duration).toBeCloseTo(1.99, 9);
  expect(series.time[0]).toBe(0);
  expect(series.values[30]).toBeCloseTo((rate[30]! * Math.PI) / 180, 12);
  expect(log.clock.rate).toBeCloseTo(100, 6);
  expect(log.sha256).toBe(createHash("sha256").update(readFileSync(file)).digest("hex"));
  expect(log.mapping.matches[0]).toMatchObject({ channel: "rate.roll.measured", unit: "deg/s", confidence: 1 });
});

test("value = sign * (cell * scale + offset), then from the unit to SI", async () => {
  const file = folder.write("scaled.csv", csv({ t: time, p: time.map(() => 7) }));
  const channels = mapWith("  altitude: { column: p, unit: cm, sign: -1, scale: 3, offset: 4 }");
  const log = await loadLog(file, { channels });
  expect(log.channels.get("altitude")!.series.values[0]).toBeCloseTo(-(7 * 3 + 4) / 100, 12);
});

test("degrees Fahrenheit become Celsius: 212 degF is 100 degC", async () => {
  const file = folder.write("warm.csv", csv({ t: time, p: time.map(() => 212) }));
  const log = await loadLog(file, { channels: mapWith("  motor.1.temperature: { column: p, unit: degF }") });
  expect(log.channels.get("motor.1.temperature")!.series.values[0]).toBeCloseTo(100, 9);
});

test("motor commands keep the unit of the log", async () => {
  const file = folder.write("motors.csv", csv({ t: time, p: time.map(() => 1466) }));
  const { unit, series } = (
    await loadLog(file, { channels: mapWith("  motor.3.command: { column: p, unit: us }") })
  ).channels.get("motor.3.command")!;
  expect([unit, series.values[0]]).toEqual(["us", 1466]);
});

describe("the same table reads alike", () => {
  const text = csv(table);
  const expected = async () => {
    const log = await loadLog(folder.write("same.csv", text), { channels: map });
    return log.channels.get("rate.roll.measured")!.series;
  };
  const semicolons = text.replaceAll(",", ";").replaceAll(".", ",");
  test.each([
    ["with tabs", "same.tsv", text.replaceAll(",", "\t")],
    ["with semicolons and decimal commas", "comma.csv", semicolons],
    ["gzipped", "same.csv.gz", gzipSync(text)],
    ["with a byte order mark and CR LF", "bom.csv", `\uFEFF${text.replaceAll("\n", "\r\n")}`],
    ["without a last line break", "cut.csv", text.trimEnd()],
    ["with every cell in quotes", "quoted.csv", text.replace(/[^,\n]+/g, '"$&"')],
    ["under a name with brackets", "f[1].csv", text],
    ["under a name with a star, a question mark and quotes", "f*?'\"q.csv", text],
    ["as one JSON object a line", "same.ndjson", [...time].map((t, i) => JSON.stringify({ t, p: rate[i] })).join("\n")],
    [
      "as gzipped JSON lines",
      "same.ndjson.gz",
      gzipSync([...time].map((t, i) => JSON.stringify({ p: rate[i], t })).join("\n")),
    ],
  ])("%s", async (_, name, content) => {
    folder.write("f1.csv", "t,p\n0,1\n1,1\n");
    const log = await loadLog(folder.write(name, content), { channels: map });
    expect(log.channels.get("rate.roll.measured")!.series).toEqual(await expected());
  });

  test("as Parquet, timestamps included", async () => {
    const file = folder.path("same.parquet");
    const connection = await (await DuckDBInstance.create(":memory:")).connect();
    await connection.run(
      `COPY (SELECT make_timestamp(1700000000000000 + i * 10000) AS t, (i % 7)::DECIMAL(9, 2) AS p, i AS alt, {'a': i} AS s
       FROM range(50) r(i)) TO '${file}' (FORMAT parquet)`,
    );
    connection.closeSync();
    const log = await loadLog(file, {
      channels: mapWith("  altitude: { column: alt, unit: m }\n  heading: { column: p, unit: deg }", "{ column: t }"),
    });
    expect(log.start).toBe("2023-11-14T22:13:20.000Z");
    expect(log.duration).toBeCloseTo(0.49, 9);
    expect(log.channels.get("altitude")!.series.values[49]).toBe(49);
    expect(log.channels.get("heading")!.series.values[6]).toBeCloseTo((6 * Math.PI) / 180, 12);
  });
});

test("twin columns, empty names and names of 10,000 letters are told apart by what is written", async () => {
  const long = "n".repeat(10_000);
  const file = folder.write("twins.csv", csv({ t: time, p: rate, P: time, [long]: time, "": time, "µ °": time }));
  const channels = mapWith(
    `  altitude: { column: P, unit: m }\n  heading: { column: p, unit: rad }\n  velocity.north: { column: ${long}, unit: m/s }
  velocity.east: { column: "", unit: m/s }\n  velocity.down: { column: "µ °", unit: m/s }`,
  );
  const log = await loadLog(file, { channels });
  expect(log.channels.get("heading")!.series.values).toEqual(rate);
  for (const name of ["altitude", "velocity.north", "velocity.east", "velocity.down"]) {
    expect(log.channels.get(name)!.series.values).toEqual(time);
  }
});

test("ISO 8601 stamps give seconds and the start, zone offsets included", async () => {
  const stamps = ["2024-05-01T10:00:00+02:00", "2024-05-01T08:00:00.250Z", "2024-05-01T08:00:00.500Z"];
  const file = folder.write("iso.csv", csv({ t: stamps, p: [1, 2, 3] }));
  const log = await loadLog(file, { channels: mapWith("  altitude: { column: p, unit: m }", "{ column: t }") });
  expect(log.start).toBe("2024-05-01T08:00:00.000Z");
  expect([...log.channels.get("altitude")!.series.time]).toEqual([0, 0.25, 0.5]);
});

test("stamps counted from 1970 in microseconds lose nothing and tell the start", async () => {
  const first = 1_700_000_000_000_000;
  const file = folder.write("epoch.csv", csv({ t: [first, first + 1, first + 4000], p: [1, 2, 3] }));
  const log = await loadLog(file, {
    channels: mapWith("  altitude: { column: p, unit: m }", "{ column: t, unit: us }"),
  });
  expect(log.start).toBe("2023-11-14T22:13:20.000Z");
  expect(log.channels.get("altitude")!.series.time[1]).toBeCloseTo(1e-6, 12);
});

test("a log without a time column takes its rows at the rate that the map gives", async () => {
  const file = folder.write("rows.csv", csv({ p: [1, 2, 3] }));
  const log = await loadLog(file, { channels: mapWith("  altitude: { column: p, unit: m }", "{ rate: 250 }") });
  expect([...log.channels.get("altitude")!.series.time]).toEqual([0, 0.004, 0.008]);
});

test("booleans are 1 and 0, and the flight mode is kept in words", async () => {
  const file = folder.write("mode.csv", "t,p,m\n0,true,hold\n1,false,\n2,true,return\n");
  const log = await loadLog(file, {
    channels: mapWith("  collective.demand: { column: p, unit: '1' }\n  mode: { column: m }"),
  });
  expect([...log.channels.get("collective.demand")!.series.values]).toEqual([1, 0, 1]);
  expect(log.mode).toEqual({ time: Float64Array.of(0, 2), values: ["hold", "return"] });
});

test("channels of different rates in one table each keep their own samples; full ones share one time array", async () => {
  const slow = Array.from({ length: n }, (_, i) => (i % 10 === 0 ? String(i) : ""));
  const file = folder.write("rates.csv", csv({ ...table, q: rate, h: slow }));
  const log = await loadLog(file, {
    channels: mapWith(
      "  rate.roll.measured: { column: p, unit: rad/s }\n  rate.pitch.measured: { column: q, unit: rad/s }\n  altitude: { column: h, unit: m }",
    ),
  });
  const roll = log.channels.get("rate.roll.measured")!;
  const altitude = log.channels.get("altitude")!;
  expect(altitude.series.values).toEqual(numbers(20, (i) => 10 * i));
  expect(altitude.rate).toBeCloseTo(10, 6);
  expect([altitude.gaps, roll.gaps]).toEqual([[], []]);
  expect(log.channels.get("rate.pitch.measured")!.series.time).toBe(roll.series.time);
});

test("the stretch asked for keeps the log's own clock, with both ends", async () => {
  const file = folder.write("stretch.csv", csv(table));
  const log = await loadLog(file, { channels: map, from: 0.5, to: 1 });
  const { series, coverage } = log.channels.get("rate.roll.measured")!;
  expect([series.time[0], series.time.at(-1), series.time.length]).toEqual([0.5, 1, 51]);
  expect(coverage).toBeCloseTo(1, 9);
  expect(log.stretch).toEqual({ start: 0.5, end: 1 });
  expect(log.duration).toBeCloseTo(1.99, 9);
});

test("infinite and NaN cells count as missing", async () => {
  const file = folder.write("nan.csv", "t,p\n0,1\n1,nan\n2,NaN\n3,inf\n4,-Infinity\n5,NA\n6,null\n7, 2\n");
  const log = await loadLog(file, { channels: map });
  expect([...log.channels.get("rate.roll.measured")!.series.time]).toEqual([0, 7]);
});

describe("unusable input is refused in one line that says where, what and what to do", () => {
  const good = csv(table);
  const cases: [title: string, name: string, content: string | Uint8Array | null, message: RegExp][] = [
    ["no such file", "missing.csv", null, /missing\.csv: no such file; check the path$/],
    ["an empty file", "empty.csv", "", /empty\.csv: the file is empty; /],
    ["a header only", "header.csv", "t,p\n", /header\.csv: holds a header and no rows; /],
    ["one row", "one.csv", "t,p\n0,1\n", /one\.csv: holds one row only; /],
    ["numbers where names are needed", "bare.csv", "0,1\n1,2\n2,3\n", /bare\.csv:1: the first line holds numbers/],
    ["an unknown ending", "log.xls", good, /log\.xls: its ending names no kind of table/],
    [
      "text in a number column",
      "text.csv",
      `${good}2.5,${"hello ".repeat(20)}\n`,
      /text\.csv:202, column "p": "hello hello .{1,40}…" is not a number; /,
    ],
    ["a row with too few cells", "short.csv", `${good}2.5\n`, /short\.csv:202: 1 cells? where the header has 2; /],
    ["a row with too many cells", "long.csv", `${good}2.5,1,2\n`, /long\.csv:202: 3 cells where the header has 2; /],
    ["an open quote", "quote.csv", `t,p\n0,1\n1,"2\n2,3\n`, /quote\.csv(:\d+)?: .*quote/],
    [
      "gzip that is cut",
      "cut.csv.gz",
      gzipSync(csv({ t: numbers(20_000, (i) => i), p: numbers(20_000, Math.sin) })).subarray(0, 50_000),
      /cut\.csv\.gz: the gzip data is cut short; /,
    ],
    [
      "gzip without its last bytes",
      "tail.csv.gz",
      gzipSync(good).subarray(0, -4),
      /tail\.csv\.gz: the gzip data is cut short; /,
    ],
    ["a name that claims gzip", "plain.csv.gz", good, /plain\.csv\.gz: is not gzip although its name ends in \.gz; /],
    [
      "a name that claims Parquet",
      "plain.parquet",
      good,
      /plain\.parquet: is not a Parquet table, or it is cut short; /,
    ],
    ["binary data", "binary.csv", Uint8Array.of(1, 0, 2, 0, 3), /binary\.csv: holds binary data, not text; /],
    ["UTF-16", "wide.csv", Buffer.from(`\uFEFF${good}`, "utf16le"), /wide\.csv: is text in UTF-16; save it as UTF-8$/],
    ["broken JSON", "broken.ndjson", '{"t":0,"p":1}\n{"t":1,\n', /broken\.ndjson(:\d+)?: is not valid JSON; /],
    [
      "text in JSON numbers",
      "words.ndjson",
      '{"t":0,"p":1}\n{"t":1,"p":"fast"}\n',
      /words\.ndjson:2, column "p": "fast" is not a number; /,
    ],
    [
      "stamps that never change",
      "still.csv",
      "t,p\n1,1\n1,2\n1,3\n",
      /still\.csv, column "t": all rows have the same time; /,
    ],
    ["no stamps at all", "stampless.csv", "t,p\n,1\n,2\n", /stampless\.csv, column "t": no row has a time; /],
    [
      "a column without any value",
      "hollow.csv",
      "t,p\n0,\n1,\n2,\n",
      /log\.channels\.yaml:3, key channels\.rate\.roll\.measured: column "p" of .* holds no number at all; /,
    ],
    [
      "twins of the very same name",
      "same.csv",
      "t,p,p\n0,1,2\n1,1,2\n",
      /log\.channels\.yaml:3, .* has 2 columns named "p"; /,
    ],
    [
      "a missing column",
      "other.csv",
      "t,pp\n0,1\n1,2\n",
      /log\.channels\.yaml:3, key channels\.rate\.roll\.measured\.column: .* has no column "p"; /,
    ],
  ];
  test.each(cases)("%s", async (_, name, content, message) => {
    const file = content === null ? folder.path(name) : folder.write(name, content);
    const text = await messageOf(loadLog(file, { channels: map }));
    expect(text).toMatch(message);
    expect(text).not.toContain("\n");
    expect(text.length).toBeLessThan(400);
  });

  test("a folder", async () => {
    folder.write("folder.csv/inside.txt", "");
    expect(await messageOf(loadLog(folder.path("folder.csv"), { channels: map }))).toMatch(/is a folder, not a file/);
  });

  test("a column in the map that is nearly a column of the log", async () => {
    const file = folder.write("near.csv", csv({ t: time, roll_rate: rate }));
    const channels = mapWith("  rate.roll.measured: { column: rol_rate, unit: rad/s }");
    expect(await messageOf(loadLog(file, { channels }))).toMatch(
      /has no column "rol_rate"; did you mean "roll_rate"\?$/,
    );
  });

  test("a stretch outside the log, or upside down", async () => {
    const file = folder.write("outside.csv", csv(table));
    expect(await messageOf(loadLog(file, { channels: map, from: 5 }))).toMatch(/runs from 0 to 1\.990 s; /);
    expect(await messageOf(loadLog(file, { channels: map, from: 1, to: 0.5 }))).toMatch(/from 1 to 0\.5 s is empty; /);
  });

  test("a log without a map and without a column for time", async () => {
    const file = folder.write("timeless.csv", csv({ roll_rate: rate }));
    expect(await messageOf(loadLog(file))).toMatch(/no column is named for time; name it in a channel map/);
  });

  test("a log without a map whose columns say nothing", async () => {
    const file = folder.write("mute.csv", csv({ a1: rate, b7: rate }));
    expect(await messageOf(loadLog(file))).toMatch(/no column is named in words that say what it is; /);
  });
});

test("rows of a long log keep their order, whatever its kind and whatever its columns hold", async () => {
  const many = 60_000;
  const modes = ["hold", "NA", "return", ""];
  const channels = mapWith(
    "  rate.roll.measured: { column: p, unit: deg/s }\n  collective.demand: { column: b, unit: '1' }\n  mode: { column: m }",
  );
  const rows = Array.from({ length: many }, (_, i) => ({ t: i, p: i % 97, b: i % 2 === 0, m: modes[(i >> 9) % 4]! }));
  const files = [
    folder.write("order.csv", `t,p,b,m\n${rows.map(({ t, p, b, m }) => `${t},${p},${b},${m}`).join("\n")}\n`),
    folder.write("order.ndjson", rows.map((row) => JSON.stringify(row)).join("\n")),
  ];
  for (const file of files) {
    const log = await loadLog(file, { channels });
    expect([log.rows, log.clock.backwards]).toEqual([many, 0]);
    expect(log.mode!.time.length).toBe(rows.filter(({ m }) => m === "hold" || m === "return").length);
    expect([...log.mode!.time].every((moment, i, all) => i === 0 || moment > all[i - 1]!)).toBe(true);
  }
});

test("progress is told while a log is read, in shares that never fall", async () => {
  const many = 200_000;
  const file = folder.write("many.csv", csv({ t: numbers(many, (i) => i), p: numbers(many, Math.sin) }));
  const shares: number[] = [];
  await loadLog(file, { channels: map, onProgress: ({ share }) => shares.push(share ?? 0) });
  expect([...shares].sort((a, b) => a - b)).toEqual(shares);
});
