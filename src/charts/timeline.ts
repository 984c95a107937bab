import type { Finding } from "../findings/finding.ts";
import type { Phase } from "../flight/flight.ts";
import { countWords, durationWords, spanWords } from "../words/index.ts";

import type { Chart } from "./chart.ts";
import type { Drawing } from "./drawing.ts";
import { findingName } from "./finding-name.ts";
import { rounded } from "./significant.ts";
import { LIGHT } from "./theme.ts";
import { type Layer, LEVEL_COLOUR, PHASE_COLOUR, TIME_X, timeChart } from "./time-chart.ts";

const LANE_HEIGHT = 28;

/** The whole flight in lanes: what the aircraft was doing, and below it the findings, numbered in order of time. */
export function chartTimeline(drawing: Drawing): Chart {
  const { flight, findings, extent: whole } = drawing;
  // Notes are about the whole flight and nobody acts on them: as bars they would bury the rest.
  const told = findings
    .map((finding, index) => ({ finding, number: index + 1 }))
    .filter(({ finding }) => finding.severity !== "note");
  const bars = packed(told, (whole.end - whole.start) * 0.05);
  const rows = Math.max(1, ...bars.map(({ row }) => row + 1));
  const length = durationWords(whole.end - whole.start);
  const noted = findings.length - told.length;
  const title =
    findings.length === 0
      ? `Nothing was found in ${length} of flight log.`
      : told.length === 0
        ? `Nothing to act on in ${length} of flight log; ${countWords(noted, "note")} below.`
        : `${countWords(told.length, "finding")} to act on or to watch in ${length} of flight log${noted === 0 ? "" : `; ${countWords(noted, "note")} below`}.`;
  return timeChart({
    id: "timeline",
    title,
    description: `${title} ${bars.map(({ number, name, time, until, level }) => `${number}: ${name}, ${level}, ${spanWords({ start: time, end: until })}`).join("; ")}`,
    height: LANE_HEIGHT * (rows + 1),
    span: whole,
    datasets: {
      phases: flight.phases.map(phaseRow),
      findings: bars,
      stretches: told.flatMap(({ finding }, index) =>
        (finding.stretches ?? [finding]).map(({ start, end }) => ({
          time: rounded(start, 3),
          until: rounded(end, 3),
          level: finding.severity,
          row: bars[index]!.row,
        })),
      ),
      lanes: [
        { row: -1, lane: "phase" },
        { row: 0, lane: "findings" },
      ],
    },
    layers: layers(rows),
  });
}

function phaseRow(phase: Phase): object {
  const speed = phase.speed === null ? "" : ` ${Math.round(phase.speed * 10) / 10} m/s`;
  return {
    time: rounded(phase.start, 3),
    until: rounded(phase.end, 3),
    phase: phase.kind,
    words: `${phase.kind}${speed}`,
    row: -1,
  };
}

/** Bars that would touch go to a row of their own. */
function packed(told: readonly { finding: Finding; number: number }[], space: number) {
  const ends: number[] = [];
  return told.map(({ finding, number }) => {
    let row = ends.findIndex((end) => end + space <= finding.start);
    if (row < 0) row = ends.length;
    ends[row] = finding.end;
    const { start, end, severity } = finding;
    return {
      time: rounded(start, 3),
      until: rounded(end, 3),
      level: severity,
      number: `${number}`,
      name: findingName(finding),
      finding: finding.id,
      row,
    };
  });
}

function layers(rows: number): Layer[] {
  const y = {
    field: "row",
    type: "quantitative",
    scale: { domain: [-1.5, rows - 0.5], reverse: true, nice: false, zero: false },
    axis: {
      values: [-1, 0],
      labelExpr: "datum.value < 0 ? 'phase' : 'findings'",
      grid: false,
      domain: false,
      ticks: false,
      title: null,
    },
  };
  const x = { ...TIME_X, scale: { ...TIME_X.scale, clamp: true } };
  const level = { color: LEVEL_COLOUR, stroke: LEVEL_COLOUR };
  const bar = { type: "rect", clip: true, cornerRadius: 1, yOffset: 6 };
  return [
    {
      data: { name: "phases" },
      transform: [IN_SIGHT],
      mark: { type: "rect", clip: true, height: LANE_HEIGHT - 6, stroke: LIGHT.paper },
      encoding: { x, x2: UNTIL, y, color: PHASE_COLOUR, description: { field: "words", type: "nominal" } },
    },
    {
      data: { name: "phases" },
      transform: [IN_SIGHT, FITTING_WORDS],
      mark: { type: "text", align: "left", dx: 4, clip: true, aria: false },
      encoding: { x, y, text: { field: "fitting", type: "nominal" } },
    },
    {
      data: { name: "findings" },
      transform: [IN_SIGHT],
      mark: { ...bar, height: 3, opacity: 0.45 },
      encoding: { x, x2: UNTIL, y, ...level, description: { field: "name", type: "nominal" } },
    },
    {
      data: { name: "stretches" },
      transform: [IN_SIGHT],
      mark: { ...bar, height: 9, strokeWidth: 1.5, aria: false },
      encoding: { x, x2: UNTIL, y, ...level },
    },
    {
      data: { name: "findings" },
      transform: [IN_SIGHT],
      mark: {
        type: "rect",
        clip: true,
        height: LANE_HEIGHT - 4,
        opacity: 0,
        cursor: "pointer",
        strokeWidth: 12,
        aria: false,
      },
      encoding: { x, x2: UNTIL, y, ...level },
    },
    {
      data: { name: "findings" },
      transform: [IN_SIGHT],
      mark: { type: "text", align: "left", dy: -6, fontWeight: "bold", fontSize: 12, cursor: "pointer", aria: false },
      encoding: { x, y, text: { field: "number", type: "nominal" }, color: LEVEL_COLOUR },
    },
  ];
}

const UNTIL = { field: "until" };

/** What lies outside the shown stretch would be pressed flat against its edge. */
const IN_SIGHT = { filter: "datum.until >= from && datum.time <= to" };

/** The phase with its speed, the phase alone, or nothing: whichever fits in the part of its bar that is in sight. */
const FITTING_WORDS = {
  calculate: ["words", "phase"].reduceRight(
    (shorter, field) =>
      `(min(datum.until, to) - max(datum.time, from)) / (to - from) * width - 6 > 6.4 * length(datum.${field}) ? datum.${field} : ${shorter}`,
    "''",
  ),
  as: "fitting",
};
