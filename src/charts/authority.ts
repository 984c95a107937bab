import type { Axis } from "../aircraft/aircraft.ts";
import { authorityBySteps, authoritySeries, lowestAt } from "../detect/index.ts";
import type { Finding } from "../findings/finding.ts";
import type { Span } from "../log/channel.ts";
import { capital, numberWords, percentWords, secondsWords } from "../words/index.ts";
import type { Chart } from "./chart.ts";
import type { Drawing } from "./drawing.ts";
import { findingName } from "./finding-name.ts";
import { findingWindow } from "./finding-window.ts";
import { madeChannel } from "./made-channel.ts";
import { stretchRows } from "./stretch-rows.ts";
import { DASHES } from "./theme.ts";
import { limitLayers, lineLayer, stretchLayer, timeChart } from "./time-chart.ts";

/** Next to nothing left: the line that the alert levels are drawn at. */
const TENTH = 0.1;
/** Shares above this tell nothing more and would flatten the rest. */
const HIGHEST = 1.5;

const WAYS = {
  roll: { positive: "rolling right", negative: "rolling left" },
  pitch: { positive: "pitching up", negative: "pitching down" },
  yaw: { positive: "yawing right", negative: "yawing left" },
} as const;

/**
 * Room left to turn about an axis over the whole flight, both ways, as a share of what hover has.
 * @returns undefined without an aircraft file or motor commands
 */
export function chartAuthority(drawing: Drawing, axis: Axis): Chart | undefined {
  const about = drawing.findings.filter((finding) => finding.kind === "authority" && finding.axis === axis);
  const name = capital(axis);
  const lowest = leastOf(drawing, axis);
  if (lowest === undefined) return undefined;
  const title = `${name} had at least ${percentWords(lowest.value)} of the room it has in hover, lowest at ${secondsWords(lowest.at)} for ${WAYS[axis][lowest.direction]}.`;
  return draw(drawing, {
    id: `authority-${axis}`,
    title: title + worstStepWords(drawing, axis),
    axis,
    about,
    span: drawing.whole,
  });
}

/** The same for the window of one finding. */
export function chartFindingAuthority(drawing: Drawing, finding: Finding): Chart | undefined {
  if (finding.axis === undefined || leastOf(drawing, finding.axis as Axis) === undefined) return undefined;
  const span = findingWindow(finding, drawing.extent);
  const { least } = finding.measures;
  const title =
    finding.kind === "authority" && least !== undefined && !Array.isArray(least)
      ? `${findingName(finding)}: at least ${percentWords(least.value)} of what hover has.${worstStepWords(drawing, finding.axis as Axis)}`
      : `Room to turn in ${finding.axis}, ${secondsWords(span.start)} to ${secondsWords(span.end)}.`;
  const id = finding.kind === "authority" ? finding.id : `${finding.id}-authority`;
  return draw(drawing, { id, title, axis: finding.axis as Axis, about: [finding], span });
}

function leastOf({ flight }: Drawing, axis: Axis) {
  const series = authoritySeries(flight);
  const lows = series?.axes
    .filter((one) => one.axis === axis)
    .map(({ direction, left }) => {
      const at = lowestAt(left, 0, left.length);
      return { direction, value: left[at]!, at: series.motors.time[at]! };
    });
  return lows?.sort((a, b) => a.value - b.value)[0];
}

/** Names the speed step at which the middle of what was left was least; empty for a flight without speed steps. */
function worstStepWords({ flight }: Drawing, axis: Axis): string {
  const series = authoritySeries(flight)!;
  const worst = series.axes
    .filter((one) => one.axis === axis)
    .flatMap((one) => authorityBySteps(flight, one).map((step) => ({ ...step, direction: one.direction })))
    .filter(({ step }) => step !== null)
    .sort((a, b) => a.median - b.median)[0];
  return worst === undefined
    ? ""
    : ` Of the speed steps, step ${worst.step} (${numberWords(worst.speed)} m/s) left the least: ${percentWords(worst.median)} in the middle, for ${WAYS[axis][worst.direction]}.`;
}

interface Frame {
  readonly id: string;
  readonly title: string;
  readonly axis: Axis;
  readonly about: readonly Finding[];
  readonly span: Span;
}

function draw(drawing: Drawing, { id, title, axis, about, span }: Frame): Chart {
  const { motors, axes } = authoritySeries(drawing.flight)!;
  const lines = axes
    .filter((one) => one.axis === axis)
    .map(({ direction, left }) => ({
      channel: madeChannel(`authority.${axis}.${direction}`, "1", motors, left),
      label: WAYS[axis][direction],
      colour: direction === "positive" ? ("response" as const) : ("setpoint" as const),
      dash: direction === "positive" ? undefined : DASHES.setpoint,
    }));
  const y = {
    field: "value",
    type: "quantitative",
    scale: { domain: [0, HIGHEST], clamp: true, nice: false },
    axis: { title: `room left in ${axis} (share of hover)`, tickCount: 4, format: ".0%" },
  };
  return timeChart({
    id,
    title,
    description: `${title} Share of the ${axis} moment of hover that the motors could still have given, over time: ${lines.map(({ label }) => label).join(" and ")}. At zero a motor stands at its limit.`,
    height: 150,
    span,
    datasets: {
      marked: stretchRows(about, drawing.whole),
      ...Object.fromEntries(lines.map(({ channel }) => [channel.name, drawing.line(channel)])),
    },
    layers: [
      stretchLayer("marked"),
      ...lines.map(({ channel, colour, dash }) => lineLayer(channel.name, colour, y, dash)),
      ...limitLayers(TENTH, "a tenth left"),
    ],
    readout: lines.map(({ channel, label }) => ({ data: channel.name, label, unit: "" })),
    key: lines.map(({ label, colour, dash }) => ({ label, colour, ...(dash === undefined ? {} : { dash }) })),
  });
}
