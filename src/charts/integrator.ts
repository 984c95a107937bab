import type { Axis } from "../aircraft/aircraft.ts";
import type { Finding } from "../findings/finding.ts";
import { channelOf } from "../flight/flight.ts";
import { capital, displayUnit, numberWords, plainText } from "../words/index.ts";
import type { Chart } from "./chart.ts";
import type { Drawing } from "./drawing.ts";
import { findingWindow } from "./finding-window.ts";
import { stretchRows } from "./stretch-rows.ts";
import { limitLayers, lineLayer, stretchLayer, timeChart } from "./time-chart.ts";

/**
 * The integral term of an axis around a finding, with its limit where the aircraft file states one.
 * @returns undefined where the integrator is not logged
 */
export function chartIntegrator(drawing: Drawing, finding: Finding): Chart | undefined {
  const data = `rate.${finding.axis}.integrator`;
  const channel = channelOf(drawing.flight, data);
  if (channel === undefined) return undefined;
  const limit = drawing.flight.aircraft?.integratorLimit[finding.axis as Axis];
  const unit = displayUnit(channel.unit).label;
  const name = `${capital(plainText(finding.axis ?? "", 16))} integrator`;
  const rows = drawing.line(channel);
  const most = rows.reduce((size, { value }) => Math.max(size, Math.abs(value ?? 0)), 0);
  const title = `${name}: ${numberWords(most)}${unit === "" ? "" : ` ${unit}`} at most${limit === undefined ? "" : `, limit ${numberWords(limit)}`}.`;
  return timeChart({
    id: `${finding.id}-integrator`,
    title,
    description: `${title} The integral term of the ${finding.axis} rate loop over time; stretches of the finding are shaded.`,
    height: 130,
    span: findingWindow(finding, drawing.extent),
    datasets: { marked: stretchRows([finding], drawing.whole), [data]: rows },
    layers: [
      stretchLayer("marked"),
      lineLayer(data, "third", {
        field: "value",
        type: "quantitative",
        axis: { title: `${finding.axis} integrator${unit === "" ? "" : ` (${unit})`}`, tickCount: 4 },
      }),
      ...(limit === undefined ? [] : [...limitLayers(limit, "its limit"), ...limitLayers(-limit, "its limit", true)]),
    ],
    readout: [{ data, label: "integrator", unit }],
  });
}
