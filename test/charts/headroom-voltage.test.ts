import { expect, test } from "vitest";
import { prepareDrawing } from "../../src/charts/drawing.ts";
import { chartHeadroomVoltage } from "../../src/charts/index.ts";
import type { Flight } from "../../src/flight/flight.ts";
import type { Channel } from "../../src/log/channel.ts";
import { compileChart } from "../../src/report/compile-chart.ts";
import { randomGenerator } from "../../src/signal/index.ts";
import { surveyFindings } from "./survey-findings.ts";
import { HERON, surveyFlight } from "./survey-flight.ts";

const EXPONENT = 1.6;
const FULL = 48;

/** Three minutes of hover while the battery falls from 48 to 46 V and thrust at a given command with it. */
function emptying(share: number): Flight {
  const flight = surveyFlight({ duration: 180, rate: 20 });
  const random = randomGenerator(5);
  const template = flight.log.channels.get("motor.1.command")!;
  const { time } = template.series;
  const voltage = time.map((t) => FULL - (2 * t) / 180);
  const channel = (name: string, unit: string, values: Float64Array): [string, Channel] => [
    name,
    { ...template, name, unit, series: { time, values } },
  ];
  const commands = HERON.motors.map((_, i) =>
    channel(
      `motor.${i + 1}.command`,
      "us",
      voltage.map((v) => 1050 + 900 * Math.sqrt(share * (FULL / v) ** EXPONENT) + 1.5 * random.gaussian()),
    ),
  );
  const channels = new Map([...commands, channel("battery.voltage", "V", voltage)]);
  const hover = { start: 8, end: 172, kind: "hover", speed: null, step: null } as const;
  return { ...flight, log: { ...flight.log, channels }, phases: [{ ...flight.phases[0]!, ...hover }] };
}

const finding = { ...surveyFindings()[0]!, id: "motor-headroom-1", kind: "motor-headroom", motor: 2 };
const draw = (flight: Flight) => chartHeadroomVoltage(prepareDrawing(flight, [finding]), finding);
type Rows = readonly { voltage: number; until: number; left: number }[];
const datasets = (chart: object) => (chart as { spec: { datasets: Record<string, Rows> } }).spec.datasets;

test("thrust left is drawn against voltage, down to the voltage at which it is all but spent", () => {
  const chart = draw(emptying(0.8))!;
  // share x (FULL / V)^EXPONENT = 0.98
  const runsOut = FULL * (0.8 / 0.98) ** (1 / EXPONENT);
  const told = Number(/at about ([\d.]+) V/.exec(chart.title)![1]);
  expect(told).toBeCloseTo(runsOut, 0);
  const { like, other, curve, interval } = datasets(chart);
  expect(other).toEqual([]);
  expect(like!.length).toBeGreaterThanOrEqual(8);
  // Points as measured: the 99th percentile lies just above the mean demand.
  for (const { voltage, left } of like!) {
    expect(Math.abs(left - (1 - 0.8 * (FULL / voltage) ** EXPONENT))).toBeLessThan(0.015);
  }
  expect(Math.min(...curve!.map(({ left }) => left))).toBeLessThan(0.02);
  expect(interval![0]!.voltage).toBeLessThan(told);
  expect(interval![0]!.until).toBeGreaterThan(told);
  expect(() => compileChart(chart, chart.spec)).not.toThrow();
});

test("a ceiling far off is not foretold, and what was left at the lowest voltage is said instead", () => {
  const chart = draw(emptying(0.4))!;
  expect(chart.title).toMatch(/thrust left to its ceiling at 46(\.\d)? V/);
  expect(datasets(chart).curve).toEqual([]);
});

test("a flight without voltage, or without a law of voltage, has no such chart", () => {
  const flight = emptying(0.8);
  const channels = new Map([...flight.log.channels].filter(([name]) => name !== "battery.voltage"));
  expect(draw({ ...flight, log: { ...flight.log, channels } })).toBeUndefined();
  expect(draw(surveyFlight())).toBeUndefined();
});
