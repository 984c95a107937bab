import type { Finding } from "../findings/finding.ts";
import { capital, measureWords, plainText } from "../words/index.ts";
import type { Chart } from "./chart.ts";
import type { Drawing } from "./drawing.ts";
import { findingWindow } from "./finding-window.ts";
import { oscillationOf } from "./oscillation-of.ts";
import { significant } from "./significant.ts";
import { stretchRows } from "./stretch-rows.ts";
import { limitLayers, lineLayer, stretchLayer, timeChart } from "./time-chart.ts";

/**
 * The net work that the commanded moment did on a swing over time: above zero the motors fed it, below they braked it.
 * @returns undefined where the size of the motors' moment is not known
 */
export function chartEnergyFlow(drawing: Drawing, finding: Finding): Chart | undefined {
  const flow = oscillationOf(drawing.flight, finding)?.flow;
  const { energy } = finding.measures;
  if (!flow || energy === undefined || Array.isArray(energy)) return undefined;
  const rows = [...flow.time].map((time, i) => ({ time: significant(time, 6), value: significant(flow.work[i]!) }));
  const axis = plainText(finding.axis ?? "", 16);
  const title = `${capital(axis)}: work of the motors per cycle, over the swing's energy, is ${measureWords("energy", energy)} over all; above 0 feeds the swing, below 0 brakes it.`;
  return timeChart({
    id: `${finding.id}-energy`,
    title,
    description: `${title} The line shows how that changed over time.`,
    height: 110,
    span: findingWindow(finding, drawing.extent),
    datasets: { marked: stretchRows([finding], drawing.whole), work: rows },
    layers: [
      stretchLayer("marked"),
      lineLayer("work", "response", {
        field: "value",
        type: "quantitative",
        axis: { title: "work per cycle", tickCount: 4 },
      }),
      ...limitLayers(0, "neither feeds nor brakes"),
    ],
    readout: [{ data: "work", label: "work per cycle", unit: "" }],
  });
}
