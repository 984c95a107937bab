import type { Finding } from "../findings/finding.ts";
import type { Phase } from "../flight/flight.ts";
import type { Chart } from "./chart.ts";
import type { Drawing } from "./drawing.ts";
import { findingName } from "./finding-name.ts";
import { countWords, secondsWords } from "./number-words.ts";
import { LIGHT } from "./theme.ts";
import { type Layer, LEVEL_COLOUR, PHASE_COLOUR, TIME_X, timeChart } from "./time-chart.ts";

const LANE_HEIGHT = 28;

/** The whole flight in lanes: what the aircraft was doing, and below it the findings, numbered in order of time. */
export function chartTimeline(drawing: Drawing): Chart {
  const { flight, findings, whole } = drawing;
  const bars = packed(findings, (whole.end - whole.start) * 0.05);
  const rows = Math.max(1, ...bars.map(({ row }) => row + 1));
  const title =
    findings.length === 0
      ? `Nothing was found in ${secondsWords(whole.end - whole.start)} of flight log.`
      : `${countWords(findings.length, "finding")} in ${secondsWords(whole.end - whole.start)} of flight log.`;
  return timeChart({
    id: "timeline",
    title,
    description: `${title} ${bars.map(({ number, name, time, until, level }) => `${number}: ${name}, ${level}, from ${secondsWords(time)} to ${secondsWords(until)}`).join("; ")}`,
    height: LANE_HEIGHT * (rows + 1),
    span: whole,
    datasets: {
      phases: flight.phases.map(phaseRow),
      findings: bars,
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
    time: round(phase.start),
    until: round(phase.end),
    phase: phase.kind,
    words: `${phase.kind}${speed}`,
    row: -1,
  };
}

/** Bars that would touch go to a row of their own. */
function packed(findings: readonly Finding[], space: number) {
  const ends: number[] = [];
  return findings.map((finding, index) => {
    let row = ends.findIndex((end) => end + space <= finding.start);
    if (row < 0) row = ends.length;
    ends[row] = finding.end;
    const { start, end, severity } = finding;
    return {
      time: round(start),
      until: round(end),
      level: severity,
      number: `${index + 1}`,
      name: findingName(finding),
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
  // A word that does not fit its bar is cut, and left out where not even its beginning fits.
  const fit = "scale('x', datum.until) - scale('x', datum.time) - 8";
  const x = { ...TIME_X, scale: { ...TIME_X.scale, clamp: true } };
  const until = { field: "until" };
  return [
    {
      data: { name: "phases" },
      mark: { type: "rect", clip: true, height: LANE_HEIGHT - 6, stroke: LIGHT.paper },
      encoding: {
        x,
        x2: until,
        y,
        color: PHASE_COLOUR,
        description: { field: "words", type: "nominal" },
      },
    },
    {
      data: { name: "phases" },
      mark: {
        type: "text",
        align: "left",
        dx: 4,
        clip: true,
        limit: { expr: `max(1, ${fit})` },
        opacity: { expr: `${fit} < 24 ? 0 : 1` },
        aria: false,
      },
      encoding: { x, y, text: { field: "words", type: "nominal" } },
    },
    {
      data: { name: "findings" },
      mark: { type: "rect", clip: true, height: 8, yOffset: 6, cornerRadius: 2, strokeWidth: 2 },
      encoding: {
        x,
        x2: until,
        y,
        color: LEVEL_COLOUR,
        stroke: LEVEL_COLOUR,
        description: { field: "name", type: "nominal" },
      },
    },
    {
      data: { name: "findings" },
      mark: { type: "text", align: "left", dy: -5, clip: true, fontWeight: "bold", aria: false },
      encoding: { x, y, text: { field: "number", type: "nominal" }, color: LEVEL_COLOUR },
    },
  ];
}

function round(seconds: number): number {
  return Number(seconds.toFixed(3));
}
