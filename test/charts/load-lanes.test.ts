import { expect, test } from "vitest";
import { prepareDrawing } from "../../src/charts/drawing.ts";
import { chartLoadBeforeAfter } from "../../src/charts/load-before-after.ts";
import { chartLoadByPhase } from "../../src/charts/load-by-phase.ts";
import type { Finding } from "../../src/findings/index.ts";
import { compileChart } from "../../src/report/compile-chart.ts";
import { surveyFindings } from "./survey-findings.ts";
import { surveyFlight } from "./survey-flight.ts";

const flight = surveyFlight();
const drawing = prepareDrawing(flight, []);
const values = (first: number) =>
  [first, 0, 0, -first].map((value, i) => ({ motor: i + 1, value, unit: "1", low: value - 0.01, high: value + 0.01 }));
const finding = (measures: Finding["measures"]): Finding => ({
  ...surveyFindings()[0]!,
  id: "thrust-imbalance-1",
  kind: "thrust-imbalance",
  measures,
});

test("before and after names the motor that changed most, with both numbers, and compiles", () => {
  const chart = chartLoadBeforeAfter(drawing, finding({ "demand-before": values(0.02), "demand-now": values(0.14) }))!;
  expect(chart.title).toBe("Motor 1 changed most: from 2.0 % to 14 % beyond the mean of all motors.");
  expect(() => compileChart(chart, chart.spec)).not.toThrow();
});

test("a finding without a baseline has no before and after", () => {
  expect(chartLoadBeforeAfter(drawing, finding({}))).toBeUndefined();
});

test("load by phase has a bar per motor and steady condition, and names who carries most", () => {
  const chart = chartLoadByPhase(drawing, finding({}))!;
  const { bars } = (chart.spec as unknown as { datasets: { bars: { series: string }[] } }).datasets;
  const series = new Set(bars.map((bar) => bar.series));
  expect(series).toContain("hover");
  expect(bars).toHaveLength(4 * series.size);
  expect(chart.title).toMatch(/^In hover motor 3 carries most/);
  expect(() => compileChart(chart, chart.spec)).not.toThrow();
});
