import type { Axis } from "../aircraft/aircraft.ts";
import { valuesWithin } from "../detect/index.ts";
import type { Finding } from "../findings/finding.ts";
import { channelOf } from "../flight/flight.ts";
import type { Channel } from "../log/channel.ts";
import { quantiles } from "../signal/index.ts";
import { capital, displayUnit, numberWords } from "../words/index.ts";
import type { Chart } from "./chart.ts";
import type { Drawing } from "./drawing.ts";
import { findingWindow } from "./finding-window.ts";
import { stretchRows } from "./stretch-rows.ts";
import { summaryTitle } from "./summary-title.ts";
import { DASHES, type Palette } from "./theme.ts";
import { lineLayer, stretchLayer, timeChart } from "./time-chart.ts";

/** Loops whose set point and response are drawn, outermost last, with the quantity's name. */
export const LOOPS = { rate: "rate", attitude: "angle" } as const;
export type Loop = keyof typeof LOOPS;

/**
 * What was asked of an axis and what it did, over the whole flight.
 * @returns undefined where the response is not logged
 */
export function chartTracking(drawing: Drawing, axis: Axis, loop: Loop): Chart | undefined {
  const channels = loopChannels(drawing, axis, loop);
  if (channels === undefined) return undefined;
  const title = trackingTitle(drawing, axis, loop, channels);
  const about = drawing.findings.filter((finding) => finding.axis === axis && (finding.loop ?? loop) === loop);
  return draw(drawing, { id: `tracking-${loop}-${axis}`, title, about, axis, loop, span: drawing.whole }, channels);
}

/** The same for the window of one finding about an axis; the rate loop where the finding names none. */
export function chartAxis(drawing: Drawing, finding: Finding): Chart | undefined {
  const axis = finding.axis as Axis | undefined;
  if (axis === undefined) return undefined;
  const wanted: Loop = finding.loop === "attitude" ? "attitude" : "rate";
  for (const loop of [wanted, wanted === "rate" ? "attitude" : "rate"] as const) {
    const channels = loopChannels(drawing, axis, loop);
    if (channels === undefined) continue;
    const span = findingWindow(finding, drawing.extent);
    const title = summaryTitle(finding.summary);
    return draw(drawing, { id: finding.id, title, about: [finding], axis, loop, span }, channels);
  }
  return undefined;
}

interface LoopChannels {
  readonly response: Channel;
  readonly setpoint: Channel | undefined;
}

function loopChannels(drawing: Drawing, axis: Axis, loop: Loop): LoopChannels | undefined {
  const response = channelOf(drawing.flight, `${loop}.${axis}.measured`);
  return response && { response, setpoint: channelOf(drawing.flight, `${loop}.${axis}.setpoint`) };
}

interface Frame {
  readonly id: string;
  readonly title: string;
  readonly about: readonly Finding[];
  readonly axis: Axis;
  readonly loop: Loop;
  readonly span: { readonly start: number; readonly end: number };
}

interface DrawnLine {
  readonly channel: Channel;
  readonly label: string;
  readonly colour: keyof Palette;
  readonly dash?: readonly number[];
}

function draw(drawing: Drawing, frame: Frame, { response, setpoint }: LoopChannels): Chart {
  const unit = displayUnit(response.unit).label;
  const y = {
    field: "value",
    type: "quantitative",
    scale: { zero: false },
    axis: { title: `${frame.axis} ${LOOPS[frame.loop]} (${unit})`, tickCount: 5 },
  };
  const lines: readonly DrawnLine[] = [
    { channel: response, label: "what it did", colour: "response" },
    ...(setpoint
      ? [{ channel: setpoint, label: "what was asked", colour: "setpoint" as const, dash: DASHES.setpoint }]
      : []),
  ];
  return timeChart({
    id: frame.id,
    title: frame.title,
    description: `${frame.title} ${capital(frame.axis)} ${LOOPS[frame.loop]} over time${setpoint ? ", what was asked as a dashed line, what the aircraft did as a solid one" : ""}.`,
    height: 190,
    span: frame.span,
    datasets: {
      marked: stretchRows(frame.about, drawing.whole),
      ...Object.fromEntries(lines.map(({ channel }) => [channel.name, drawing.line(channel)])),
    },
    layers: [
      stretchLayer("marked"),
      ...lines.map(({ channel, colour, dash }) => lineLayer(channel.name, colour, y, dash)),
    ],
    readout: lines.map(({ channel, label }) => ({ data: channel.name, label, unit })),
    key: lines.map(({ label, colour, dash }) => ({ label, colour, ...(dash === undefined ? {} : { dash }) })),
  });
}

function trackingTitle(drawing: Drawing, axis: Axis, loop: Loop, { response, setpoint }: LoopChannels): string {
  const name = `${capital(axis)} ${LOOPS[loop]}`;
  const { label, factor } = displayUnit(response.unit);
  const measured = drawing.findings.find(
    (finding) => finding.kind === "tracking" && finding.axis === axis && finding.loop === loop,
  )?.measures.p95;
  if (setpoint !== undefined && measured !== undefined && !Array.isArray(measured)) {
    return `${name} stayed within ${numberWords(measured.value * factor, 2)} ${label} of what was asked for 95 % of the time in the air.`;
  }
  const values = valuesWithin(response.series, drawing.flight.airborne);
  if (values.length === 0) return `${name} against what was asked.`;
  const [low, high] = [...quantiles(values, [0.025, 0.975])].map((value) => numberWords(value * factor, 2));
  return `${name} kept between ${low} and ${high} ${label} for 95 % of the time in the air.`;
}
