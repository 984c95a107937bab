import type { Finding } from "../findings/finding.ts";
import { chartFindingAuthority } from "./authority.ts";
import type { Chart } from "./chart.ts";
import type { Drawing } from "./drawing.ts";
import { chartEnergyFlow } from "./energy-flow.ts";
import { chartFromAbove } from "./from-above.ts";
import { chartHeadroomTrend } from "./headroom-trend.ts";
import { chartHeadroomVoltage } from "./headroom-voltage.ts";
import { chartIntegrator } from "./integrator.ts";
import { chartLoadBeforeAfter } from "./load-before-after.ts";
import { chartLoadByPhase } from "./load-by-phase.ts";
import { chartMotorCommand } from "./motor-command.ts";
import { chartOscillationEnvelope } from "./oscillation-envelope.ts";
import { chartSpectrogram } from "./spectrogram.ts";
import { chartAxis } from "./tracking.ts";
import { chartVibrationSpectrum } from "./vibration-spectrum.ts";

/** Draws one finding; undefined where this flight lacks what the picture needs. */
export type FindingChart = (drawing: Drawing, finding: Finding) => Chart | undefined;

/** The pictures of each kind of finding, most telling first. A new kind of finding gets its pictures here. */
export const CHARTS_BY_KIND: Readonly<Record<string, readonly FindingChart[]>> = {
  oscillation: [chartAxis, chartOscillationEnvelope, chartEnergyFlow, chartSpectrogram],
  upset: [chartAxis],
  "motor-saturation": [chartMotorCommand],
  "motor-floor": [chartMotorCommand],
  "motor-headroom": [chartMotorCommand, chartHeadroomTrend, chartHeadroomVoltage],
  "motor-response": [chartMotorCommand],
  authority: [(drawing, finding) => (finding.leads === false ? undefined : chartFindingAuthority(drawing, finding))],
  "integrator-windup": [chartAxis, chartIntegrator],
  "thrust-imbalance": [chartFromAbove, chartLoadBeforeAfter, chartLoadByPhase],
  tracking: [chartAxis],
  "loop-margin": [chartAxis],
  vibration: [chartVibrationSpectrum],
};

/** Charts of the whole flight that show a finding well enough, by id. */
export function sharedCharts({ kind, axis, leads }: Pick<Finding, "kind" | "axis" | "leads">): readonly string[] {
  if (kind === "data-quality") return ["data-quality"];
  // Followers of one event would all show the same stretches once more.
  return kind === "authority" && leads === false ? [`authority-${axis}`] : [];
}
