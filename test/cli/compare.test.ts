import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { comparisonSchema } from "../../src/index.ts";
import { csv, numbers, temporaryFolder } from "../support/index.ts";
import { runFettle } from "./run-fettle.ts";

const folder = temporaryFolder();
const rows = 1500;
const fly = (name: string, speed: number) =>
  folder.write(
    `${name}.csv`,
    csv({
      time_s: numbers(rows, (i) => i / 25),
      vn: numbers(rows, (i) => speed + 0.05 * Math.sin(i)),
      ve: numbers(rows, (i) => 0.05 * Math.cos(i)),
      p: numbers(rows, (i) => 0.1 * Math.sin(i / 3)),
      ps: numbers(rows, (i) => 0.08 * Math.sin(i / 3 + 0.2)),
    }),
  );
const map = folder.write(
  "map.channels.yaml",
  `time: { column: time_s, unit: s }
channels:
  velocity.north: { column: vn, unit: m/s }
  velocity.east: { column: ve, unit: m/s }
  rate.pitch.measured: { column: p, unit: rad/s }
  rate.pitch.setpoint: { column: ps, unit: rad/s }
`,
);

test("compare writes a page and a comparison that fits its schema, beside the log after unless told otherwise", () => {
  const [before, after] = [fly("before", 8), fly("after", 8)];
  const { status, out } = runFettle(["compare", before, after, "--channels", map, "--format", "html,json,text"]);
  expect(status).toBe(0);
  expect(out).toContain("not enough data");
  const written = (name: string) => readFileSync(join(`${after}-fettle-compare`, name), "utf8");
  expect(comparisonSchema.safeParse(JSON.parse(written("comparison.json"))).success).toBe(true);
  expect(written("comparison.html")).toMatch(/^<!doctype html>/);
  expect(written("comparison.txt")).toContain("What was not examined");
});

test("flights without a common speed leave with status 2, one line and nothing written", () => {
  const [slow, fast] = [fly("slow", 5), fly("fast", 12)];
  const { status, err } = runFettle(["compare", slow, fast, "--channels", map]);
  expect(status).toBe(2);
  expect(err.trim().split("\n")).toHaveLength(1);
  expect(err).toContain("no speed in common");
  expect(existsSync(`${fast}-fettle-compare`)).toBe(false);
});
