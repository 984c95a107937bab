import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { Ajv } from "ajv";
import { beforeAll, expect, test } from "vitest";
import { type Chart, chartsFor, type FlightCharts } from "../../src/charts/index.ts";
import { authority } from "../../src/detect/authority.ts";
import { compileChart } from "../../src/report/compile-chart.ts";
import { packCharts } from "../../src/report/pack-charts.ts";
import { surveyFindings } from "./survey-findings.ts";
import { surveyFlight } from "./survey-flight.ts";

type Rows = readonly Readonly<Record<string, number | null>>[];
const rowsOf = (chart: Chart, name: string): Rows =>
  (chart.spec as unknown as { datasets: Record<string, Rows> }).datasets[name] ?? [];
/** The schema says nothing about rows; a few of each dataset keep its check quick. */
const withFewRows = (spec: Chart["spec"]): unknown => {
  const { datasets, ...rest } = JSON.parse(JSON.stringify(spec)) as { datasets: Record<string, Rows> };
  return {
    ...rest,
    datasets: Object.fromEntries(Object.entries(datasets).map(([name, rows]) => [name, rows.slice(0, 3)])),
  };
};
const named = ({ charts }: FlightCharts, id: string): Chart => {
  const chart = charts.find((each) => each.id === id);
  if (chart === undefined) throw new Error(`no chart ${id}`);
  return chart;
};

let drawn: FlightCharts;
beforeAll(() => {
  drawn = chartsFor(surveyFlight(), surveyFindings());
});

test("every spec is valid against the JSON Schema that Vega-Lite ships", () => {
  const schema = createRequire(import.meta.url).resolve("vega-lite/vega-lite-schema.json");
  const validate = new Ajv({ strict: false, validateFormats: false }).compile(JSON.parse(readFileSync(schema, "utf8")));
  for (const { id, spec } of drawn.charts) {
    expect(validate(withFewRows(spec)), `${id}: ${JSON.stringify(validate.errors?.slice(0, 3))}`).toBe(true);
  }
});

test("every spec compiles without a warning", () => {
  for (const chart of drawn.charts) expect(() => compileChart(chart, chart.spec)).not.toThrow();
  // As a page compiles them: sized by the page and coloured by its style.
  for (const { id, spec } of packCharts(drawn.charts).charts) {
    expect(() => compileChart({ id }, spec as never)).not.toThrow();
  }
});

test("every chart has an id that fits a file name, a title with a number or a name, and a text alternative", () => {
  for (const { id, title, description } of drawn.charts) {
    expect(id).toMatch(/^[a-z0-9]+(-[a-z0-9]+)*$/);
    expect(title, id).toMatch(/\d/);
    expect(description.length, id).toBeGreaterThan(title.length);
  }
  expect(new Set(drawn.charts.map(({ id }) => id)).size).toBe(drawn.charts.length);
});

test("every finding of a known kind has a chart, and byFinding names charts that exist", () => {
  const ids = new Set(drawn.charts.map(({ id }) => id));
  for (const { id } of surveyFindings()) {
    const own = drawn.byFinding.get(id) ?? [];
    expect(own.length, id).toBeGreaterThan(0);
    for (const chart of own) expect(ids).toContain(chart);
  }
});

test("no spec refers to anything outside itself", () => {
  for (const { spec } of drawn.charts) {
    const { $schema: _, ...rest } = spec;
    expect(JSON.stringify(rest)).not.toMatch(/https?:|"url"|"href"/);
  }
});

test("a 1.5 Hz swing is still a wave in its window of a ten-minute log", () => {
  const flight = surveyFlight({ duration: 600, rate: 250 });
  const charts = chartsFor(flight, surveyFindings(600));
  const rows = rowsOf(named(charts, "oscillation-pitch-1"), "rate.pitch.measured");
  const cycle = rows.filter(({ time }) => time! >= 370 && time! < 370 + 1 / 1.52);
  expect(cycle.length).toBeGreaterThan(20);
  expect(rows.length).toBeLessThan(12_000);
});

test("a line is broken where the log holds nothing", () => {
  const charts = chartsFor(surveyFlight({ gap: { start: 50, end: 60 } }), surveyFindings());
  for (const id of ["tracking-rate-roll", "tracking-roll-1"]) {
    const rows = rowsOf(named(charts, id), "rate.roll.measured");
    const broken = rows.filter(({ value }) => value === null);
    expect(broken).toEqual([{ time: 55, value: null }]);
  }
  expect(named(charts, "data-quality").title).toMatch(/10\.0 s/);
});

test("channels that hold data at the same times share a lane, one that differs has its own", () => {
  const flight = surveyFlight();
  const [odd] = [...flight.log.channels.values()];
  const gaps = [{ start: 20, end: 30 }];
  const channels = new Map(flight.log.channels).set(odd!.name, { ...odd!, gaps });
  const lanes = rowsOf(
    named(chartsFor({ ...flight, log: { ...flight.log, channels } }, []), "data-quality"),
    "stretches",
  );
  expect(lanes.filter(({ channel }) => String(channel) === odd!.name)).toHaveLength(2);
  expect(new Set(lanes.map(({ channel }) => channel)).size).toBeLessThan(channels.size);
});

test("a chart of room to turn names the speed step that left the least", () => {
  for (const axis of ["roll", "pitch", "yaw"]) {
    const steps = authority
      .detect(surveyFlight())
      .filter((one) => one.axis === axis)
      .flatMap((one) => one.steps.filter(({ step }) => step !== null));
    const worst = steps.reduce((least, one) => (one.median < least.median ? one : least));
    expect(named(drawn, `authority-${axis}`).title).toContain(`step ${worst.step} (`);
  }
});

test("rates are drawn in degrees per second", () => {
  const values = rowsOf(named(drawn, "tracking-rate-roll"), "rate.roll.setpoint").map(({ value }) => value ?? 0);
  expect(Math.max(...values)).toBeCloseTo(9, 1);
});

test("without an aircraft file the charts that need no geometry are still drawn, and say what they do not know", () => {
  const charts = chartsFor({ ...surveyFlight(), aircraft: null }, []);
  expect(named(charts, "motor-commands").title).toMatch(/no aircraft file/);
  expect(charts.charts.map(({ id }) => id)).toContain("tracking-rate-yaw");
});

test("a log without motors and rates still has its time line", () => {
  const flight = surveyFlight();
  const empty = chartsFor({ ...flight, log: { ...flight.log, channels: new Map() } }, []);
  expect(empty.charts.map(({ id }) => id)).toEqual(["timeline"]);
});

test("names from an aircraft file cannot leave the place where they are shown", () => {
  const flight = surveyFlight();
  const label = `"]+alert(1)+["\\u0022'`;
  const aircraft = { ...flight.aircraft!, motors: flight.aircraft!.motors.map((motor) => ({ ...motor, label })) };
  for (const chart of chartsFor({ ...flight, aircraft }, surveyFindings()).charts) {
    expect(() => compileChart(chart, chart.spec)).not.toThrow();
    expect(JSON.stringify(compileChart(chart, chart.spec))).not.toMatch(/labelExpr":"[^"]*alert\(1\)\+\[/);
  }
});

test("from above, the load's centre is called that of gravity only where the finding says so", () => {
  const wordsOf = (pattern: string) => {
    const findings = surveyFindings().map((one) => (one.kind === "thrust-imbalance" ? { ...one, pattern } : one));
    const chart = named(chartsFor(surveyFlight(), findings), "thrust-imbalance-1-above");
    return rowsOf(chart, "gravity").map(({ words }) => String(words));
  };
  expect(wordsOf("single-motor")).toEqual(["centre of the load"]);
  expect(wordsOf("centre-of-gravity")).toEqual(["centre of gravity"]);
});
