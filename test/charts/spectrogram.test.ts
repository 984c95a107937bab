import { expect, test } from "vitest";
import { chartIntegrator, chartSpectrogram, prepareDrawing } from "../../src/charts/index.ts";
import { uniformStretches } from "../../src/charts/uniform-stretches.ts";
import type { Channel } from "../../src/log/channel.ts";
import { surveyFindings } from "./survey-findings.ts";
import { surveyFlight } from "./survey-flight.ts";

interface Cell {
  readonly time: number;
  readonly until: number;
  readonly low: number;
  readonly high: number;
  readonly strength: number;
}

const swing = surveyFindings().find(({ kind }) => kind === "oscillation")!;

test("the strongest cell of a 1.52 Hz swing holds 1.52 Hz and lies within the swing", () => {
  const chart = chartSpectrogram(prepareDrawing(surveyFlight(), [swing]), swing)!;
  const { cells } = (chart.spec as unknown as { datasets: { cells: Cell[] } }).datasets;
  const strongest = cells.reduce((best, cell) => (cell.strength > best.strength ? cell : best));
  expect(strongest.low).toBeLessThanOrEqual(1.6);
  expect(strongest.high).toBeGreaterThanOrEqual(1.44);
  expect(strongest.time).toBeGreaterThan(swing.start);
  expect(strongest.until).toBeLessThan(swing.end);
  expect(cells.length).toBeLessThan(4500);
});

test("without a frequency or without the rate there is no spectrogram, without an integrator no chart of it", () => {
  const flight = surveyFlight();
  const { frequency: _, ...measures } = swing.measures;
  expect(chartSpectrogram(prepareDrawing(flight, []), { ...swing, measures })).toBeUndefined();
  expect(chartSpectrogram(prepareDrawing(flight, []), { ...swing, axis: "heave" })).toBeUndefined();
  expect(chartIntegrator(prepareDrawing(flight, []), swing)).toBeUndefined();
});

test("an integrator is drawn with its limit on both sides", () => {
  const flight = surveyFlight();
  const rate = flight.log.channels.get("rate.pitch.measured")!;
  const integrator: Channel = { ...rate, name: "rate.pitch.integrator", unit: "1" };
  const channels = new Map([...flight.log.channels, [integrator.name, integrator]]);
  const chart = chartIntegrator(prepareDrawing({ ...flight, log: { ...flight.log, channels } }, []), swing)!;
  expect(chart.title).toMatch(/limit 0\.3\.$/);
  expect(JSON.stringify(chart.spec)).toContain('"datum":-0.3');
});

test("uniformStretches cuts a channel at its gaps and puts values between samples on the straight line", () => {
  const time = Float64Array.of(0, 0.1, 0.3, 0.4, 2, 2.1, 2.2);
  const channel: Channel = {
    name: "rate.roll.measured",
    column: "p",
    unit: "rad/s",
    series: { time, values: time.map((t) => 3 * t) },
    rate: 10,
    coverage: 0.3,
    longestGap: 1.6,
    gaps: [{ start: 0.4, end: 2 }],
    stuck: [],
  };
  const { values, starts } = uniformStretches(channel, { start: 0, end: 3 });
  expect(starts).toEqual([0, 2]);
  expect(values.map((piece) => piece.length)).toEqual([5, 3]);
  values[0]!.forEach((value, index) => {
    expect(value).toBeCloseTo(0.3 * index, 9);
  });
});
