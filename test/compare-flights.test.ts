import { readFileSync } from "node:fs";
import { join } from "node:path";
import { Ajv2020 } from "ajv/dist/2020.js";
import { beforeAll, describe, expect, test } from "vitest";
import { chartsForComparison } from "../src/charts/index.ts";
import {
  compareFlights,
  comparisonJsonSchema,
  type FlightsCompared,
  renderComparisonPage,
  renderComparisonText,
  renderComparisonTicket,
} from "../src/index.ts";
import { csv, messageOf, numbers, realFlights, temporaryFolder } from "./support/index.ts";

const folder = join(realFlights ?? "", "propellers");
const log = (name: string) => join(folder, `motors-e9-${name}.csv.gz`);
const channels = join(folder, "motors.channels.yaml");
const aircraft = join(folder, "nano.aircraft.yaml");
const at = new Date("2026-11-25T00:00:00Z");

describe.skipIf(realFlights === null)("comparing two real flights, files to report", () => {
  const files = temporaryFolder();
  let made: FlightsCompared;
  beforeAll(async () => {
    made = await compareFlights(log("undamaged-1"), log("add-weight-w3-near-m3-1"), { channels, aircraft, at });
  });

  test("comparison.json validates against the schema that ships", () => {
    const validate = new Ajv2020({ strict: false, formats: { "date-time": true } }).compile(comparisonJsonSchema());
    expect(validate(JSON.parse(JSON.stringify(made.comparison))) ? [] : validate.errors).toEqual([]);
  });

  test("the page and the text lead with motor 3 and never call anything safe", async () => {
    const page = renderComparisonPage(made.comparison, made.charts, {
      assets: { vega: "", vegaLite: "", interpreter: "" },
    });
    const read = page.replace(/<(script|style)[\s\S]*?<\/\1>/g, "");
    const text = renderComparisonText(made.comparison, { full: true });
    const ticket = await renderComparisonTicket(made.comparison, []);
    const markdown = String(ticket.files.get("ticket.md"));
    for (const words of [read, text, markdown]) {
      expect(words).toMatch(/motor 3[^.]*changed most in hover: 2\d points more/);
      expect(words).not.toMatch(/\bsafe(ly|ty)?\b/i);
      expect(words).not.toMatch(/undefined|NaN|\[object/);
    }
    expect([...ticket.files.keys()]).toContain("comparison.json");
  });

  test("what was left out is said: power, steadiness, the next step", () => {
    const subjects = made.comparison.leftOut.map(({ subject }) => subject);
    expect(subjects).toContain("Electrical power");
    expect(subjects).toContain("Steadiness of pitch");
    expect(made.comparison.nextStep).toBeNull();
  });

  test("the same run gives the same comparison and charts", async () => {
    const again = await compareFlights(log("undamaged-1"), log("add-weight-w3-near-m3-1"), { channels, aircraft, at });
    expect(again).toEqual(made);
    expect(chartsForComparison(made.comparison)).toEqual(made.charts);
  });

  test("another aircraft is refused in one line", async () => {
    const other = files.write(
      "other.aircraft.yaml",
      readFileSync(aircraft, "utf8").replace("0.0325, y: 0.0325", "0.05, y: 0.05"),
    );
    const said = await messageOf(
      compareFlights(log("undamaged-1"), log("undamaged-2"), { channels, aircraft, beforeAircraft: other }),
    );
    expect(said).toMatch(/different aircraft: motors\.0 is x 0\.05, y 0\.05 before and x 0\.0325, y 0\.0325 after/);
    expect(said).not.toContain("\n");
  });
});

describe("flights that do not compare", () => {
  const files = temporaryFolder();
  const rows = 1500;
  const time = numbers(rows, (i) => i / 25);
  const fly = (name: string, columns: Record<string, ArrayLike<number | string>>) =>
    files.write(`${name}.csv`, csv({ time_s: time, ...columns }));
  const map = (name: string, lines: string) =>
    files.write(`${name}.channels.yaml`, `time: { column: time_s, unit: s }\nchannels:\n${lines}`);
  const cruise = (name: string, speed: number) =>
    fly(name, {
      vn: numbers(rows, (i) => speed + 0.05 * Math.sin(i)),
      ve: numbers(rows, (i) => 0.05 * Math.cos(i)),
      p: numbers(rows, (i) => 0.1 * Math.sin(i / 3)),
      ps: numbers(rows, (i) => 0.08 * Math.sin(i / 3 + 0.2)),
    });
  const full = () =>
    map(
      "full",
      [
        "  velocity.north: { column: vn, unit: m/s }",
        "  velocity.east: { column: ve, unit: m/s }",
        "  rate.pitch.measured: { column: p, unit: rad/s }",
        "  rate.pitch.setpoint: { column: ps, unit: rad/s }",
      ].join("\n"),
    );

  test("no speed in common: both flights' speeds are named", async () => {
    const said = await messageOf(compareFlights(cruise("slow", 5), cruise("fast", 12), { channels: full() }));
    expect(said).toMatch(/no speed in common: 5 m\/s before, 12 m\/s after/);
  });

  test("a next step that was flown already is refused", async () => {
    const said = await messageOf(compareFlights(cruise("a", 8), cruise("b", 8), { channels: full(), next: 6 }));
    expect(said).toMatch(/a next step of 6 m\/s is not above the fastest step flown, 8\.0 m\/s/);
  });

  test("no channel in common: what is missing is named", async () => {
    const bare = map(
      "bare",
      "  velocity.north: { column: vn, unit: m/s }\n  velocity.east: { column: ve, unit: m/s }\n",
    );
    const said = await messageOf(
      compareFlights(cruise("one", 8), cruise("two", 8), { channels: bare, beforeChannels: full() }),
    );
    expect(said).toMatch(/no channel that can be compared is in both logs; only before: rate error/);
  });
});
