import type { Axis } from "../aircraft/aircraft.ts";
import { integralTerm } from "../detect/index.ts";
import type { Finding } from "../findings/finding.ts";
import { channelOf } from "../flight/flight.ts";
import { capital, displayUnit, numberWords, plainText } from "../words/index.ts";
import type { Chart } from "./chart.ts";
import type { Drawing } from "./drawing.ts";
import { findingWindow } from "./finding-window.ts";
import { madeChannel } from "./made-channel.ts";
import { rounded } from "./significant.ts";
import { stretchRows } from "./stretch-rows.ts";
import { LIGHT } from "./theme.ts";
import { limitLayers, lineLayer, REACHES_WINDOW, stretchLayer, TIME_X, timeChart } from "./time-chart.ts";

/** px */
const HEIGHT = 130;

/**
 * The integral term of an axis around a finding, logged or rebuilt, with its limit where the aircraft file states one.
 * Bars along the foot mark when a motor or the controller output was at a limit.
 * @returns undefined where the loop is not logged, or nothing tells what its integrator did
 */
export function chartIntegrator(drawing: Drawing, finding: Finding): Chart | undefined {
  const term = integralTerm(drawing.flight, finding.axis as Axis);
  if (term === null || term.evidence === "outward") return undefined;
  const isRebuilt = term.evidence === "rebuilt";
  const data = `rate.${finding.axis}.integrator`;
  const channel = channelOf(drawing.flight, data) ?? madeChannel(data, term.unit, term.loop, term.integral);
  const limit = drawing.flight.aircraft?.integratorLimit[finding.axis as Axis];
  const unit = displayUnit(channel.unit).label;
  const name = `${capital(plainText(finding.axis ?? "", 16))} integrator${isRebuilt ? ", rebuilt" : ""}`;
  const rows = drawing.line(channel);
  const most = rows.reduce((size, { value }) => Math.max(size, Math.abs(value ?? 0)), 0);
  const title = `${name}: ${numberWords(most)}${unit === "" ? "" : ` ${unit}`} at most${limit === undefined ? "" : `, limit ${numberWords(limit)}`}.`;
  return timeChart({
    id: `${finding.id}-integrator`,
    title,
    description: `${title} The integral term of the ${finding.axis} rate loop over time; stretches of the finding are shaded; bars along the foot mark a motor or the controller output at its limit.`,
    height: HEIGHT,
    span: findingWindow(finding, drawing.extent),
    datasets: {
      marked: stretchRows([finding], drawing.whole),
      limited: limitRows(term.loop),
      [data]: rows,
    },
    layers: [
      stretchLayer("marked"),
      {
        data: { name: "limited" },
        transform: [REACHES_WINDOW],
        mark: { type: "rect", clip: true, color: LIGHT.limit, aria: false },
        encoding: { x: TIME_X, x2: { field: "until" }, y: { value: HEIGHT - 6 }, y2: { value: HEIGHT } },
      },
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

/** When something was at a limit, as bars; moments nearer than 50 ms are one bar. */
function limitRows({ time, isLimited }: { readonly time: Float64Array; readonly isLimited: Uint8Array }) {
  const rows: { time: number; until: number }[] = [];
  for (let i = 0; i < time.length; i++) {
    if (isLimited[i] !== 1) continue;
    const last = rows.at(-1);
    const now = rounded(time[i]!, 3);
    if (last !== undefined && now - last.until <= 0.05) last.until = now;
    else rows.push({ time: now, until: now + 0.01 });
  }
  return rows;
}
