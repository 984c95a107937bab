import type { Finding } from "../findings/finding.ts";
import { channelOf } from "../flight/flight.ts";
import { displayUnit, plainText } from "../words/index.ts";
import type { Chart } from "./chart.ts";
import { commandLimits } from "./command-limits.ts";
import type { Drawing } from "./drawing.ts";
import { findingWindow } from "./finding-window.ts";
import { motorWords } from "./motor-words.ts";
import { stretchRows } from "./stretch-rows.ts";
import { summaryTitle } from "./summary-title.ts";
import { limitLayers, lineLayer, stretchLayer, timeChart } from "./time-chart.ts";

/** The command of the motor that a finding is about, in its own unit against ceiling and floor, in the finding's window. */
export function chartMotorCommand(drawing: Drawing, finding: Finding): Chart | undefined {
  const { flight } = drawing;
  const motor = finding.motor;
  const data = `motor.${motor}.command`;
  const channel = channelOf(flight, data);
  if (motor === undefined || channel === undefined) return undefined;
  const limits = commandLimits(flight);
  const unit = displayUnit(limits.unit).label;
  const name = motorWords(flight, motor);
  const isRoomBelow = limits.idle - limits.min > 0.05 * (limits.max - limits.min);
  const margin = 0.06 * (limits.max - limits.min);
  const y = {
    field: "value",
    type: "quantitative",
    scale: { domain: [limits.min - margin, limits.max + 2 * margin], nice: false, zero: false },
    axis: { title: `command of motor ${motor}${unit === "" ? "" : ` (${unit})`}`, tickCount: 5 },
  };
  return timeChart({
    id: finding.id,
    title: summaryTitle(finding.summary),
    description: `Command of ${name} over time between its floor at ${limits.idle} and its ceiling at ${limits.max} ${unit}. ${plainText(finding.summary, 300)}`,
    height: 190,
    span: findingWindow(finding, drawing.extent),
    datasets: { marked: stretchRows([finding], drawing.whole), [data]: drawing.line(channel) },
    layers: [
      stretchLayer("marked"),
      lineLayer(data, "response", y),
      ...limitLayers(limits.max, `${limits.known ? "ceiling" : "highest logged"} ${limits.max} ${unit}`),
      ...limitLayers(limits.idle, `${limits.known ? "floor" : "lowest logged"} ${limits.idle} ${unit}`, isRoomBelow),
    ],
    readout: [{ data, label: name, unit }],
  });
}
