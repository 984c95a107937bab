import { expect, test } from "vitest";
import { prepareDrawing } from "../../src/charts/drawing.ts";
import { chartVibrationSpectrum } from "../../src/charts/vibration-spectrum.ts";
import { vibration } from "../../src/detect/index.ts";
import { makeFindings } from "../../src/findings/index.ts";
import { compileChart } from "../../src/report/compile-chart.ts";
import { BUILT_IN_AIRCRAFT } from "../../src/simulate/index.ts";
import { simulatedFlight } from "../detect/simulated-flight.ts";
import { surveyFindings } from "./survey-findings.ts";
import { surveyFlight } from "./survey-flight.ts";

interface Sets {
  readonly spectrum: { frequency: number; amplitude: number }[];
  readonly marks: { frequency: number; words: string }[];
  readonly others: { frequency: number }[];
}

const { flight } = simulatedFlight({
  name: "hover",
  seed: 3,
  aircraft: BUILT_IN_AIRCRAFT["small-quad"]!,
  mission: [
    { do: "aloft", height: 20 },
    { do: "hover", seconds: 15 },
  ],
  faults: [{ kind: "damaged-blade", motor: 2, force: 1 }],
  log: { rate: 500 },
});
const [finding] = makeFindings({
  evidence: vibration.detect(flight),
  motorName: (motor) => `motor ${motor}`,
  phaseName: ({ kind }) => kind,
});

test("the strongest line above body motion lies at the marked frequency, and the multiples below half the rate are marked", () => {
  const chart = chartVibrationSpectrum(prepareDrawing(flight, []), finding!)!;
  const { spectrum, marks, others } = (chart.spec as unknown as { datasets: Sets }).datasets;
  const strongest = spectrum
    .filter(({ frequency }) => frequency > 30)
    .reduce((a, b) => (b.amplitude > a.amplitude ? b : a));
  expect(Math.abs(strongest.frequency - marks[0]!.frequency)).toBeLessThan(2);
  expect(marks.map(({ words }) => words)).toEqual(["motor 2 (front right)", "2 times that"]);
  expect(others).toHaveLength(3);
  expect(chart.title).toMatch(/follows motor 2/);
  expect(() => compileChart(chart, chart.spec)).not.toThrow();
});

test("a finding without a motor, or whose channel is not logged, has no spectrum", () => {
  const drawing = prepareDrawing(surveyFlight(), []);
  expect(chartVibrationSpectrum(drawing, surveyFindings()[1]!)).toBeUndefined();
  expect(chartVibrationSpectrum(drawing, { ...finding!, channel: "acceleration.x" })).toBeUndefined();
});
