import { expect, test } from "vitest";
import { chartIntegrator, chartSpectrogram, prepareDrawing } from "../../src/charts/index.ts";
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
