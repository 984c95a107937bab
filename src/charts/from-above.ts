import type { Finding } from "../findings/finding.ts";
import { percentWords } from "../words/index.ts";
import type { Chart } from "./chart.ts";
import type { Drawing } from "./drawing.ts";
import { findingName } from "./finding-name.ts";
import { summaryTitle } from "./summary-title.ts";

import { DASHES, LIGHT } from "./theme.ts";
import { type Layer, staticChart } from "./time-chart.ts";

/** One motor as drawn from above: metres right and forward, and what it does. */
export interface MotorRow {
  readonly right: number;
  readonly forward: number;
  readonly motor: string;
  readonly excess: number;
  readonly words: string;
}

const SIZE = 300;

/**
 * The aircraft from above, nose up, with what each motor gives beyond the mean of all, and an arrow to the centre of
 * the load where the finding measured one.
 * @returns undefined without an aircraft file or without a value per motor
 */
export function chartFromAbove(drawing: Drawing, finding: Finding): Chart | undefined {
  const { aircraft } = drawing.flight;
  const excess = finding.measures.excess;
  if (aircraft === null || !Array.isArray(excess)) return undefined;
  const rows: MotorRow[] = excess.flatMap(({ motor, value }) => {
    const place = aircraft.motors[motor - 1];
    if (place === undefined) return [];
    const sign = value > 0 ? "+" : "";
    return [
      {
        ...placeFromAbove(motor, place),
        excess: value,
        words: `${sign}${percentWords(value)}`,
      },
    ];
  });
  if (rows.length === 0) return undefined;
  const title = summaryTitle(finding.summary);
  const from = "demand-before" in finding.measures ? "against the baseline flight" : "beyond the mean of all motors";
  return drawFromAbove({
    id: `${finding.id}-above`,
    title,
    description: `${findingName(finding)}. The aircraft from above, nose up. ${motorList(rows)} ${from}.`,
    motors: rows,
    gravity: gravityRows(finding),
  });
}

/** The load's centre is that of gravity only where the finding says so: a weak motor moves it as well. */
function gravityRows(finding: Finding): object[] {
  const { "cg-forward": forward, "cg-right": right } = finding.measures;
  if (forward === undefined || right === undefined || Array.isArray(forward) || Array.isArray(right)) return [];
  const isOfGravity = [finding.pattern, finding.besides].includes("centre-of-gravity");
  return [
    { forward: forward.value, right: right.value, words: isOfGravity ? "centre of gravity" : "centre of the load" },
  ];
}

/** Where a motor is drawn, and its number with the way it turns. */
export const placeFromAbove = (motor: number, { x, y, spin }: { x: number; y: number; spin: string }) => ({
  right: y,
  forward: x,
  motor: `${motor} ${spin === "cw" ? "↻" : "↺"}`,
});

/** The motors in words. */
export const motorList = (motors: readonly MotorRow[]): string =>
  motors.map(({ motor, words }) => `Motor ${motor}: ${words}`).join("; ");

interface FromAbove {
  readonly id: string;
  readonly title: string;
  readonly description: string;
  readonly motors: readonly MotorRow[];
  readonly gravity: readonly object[];
}

/** The aircraft from above: one look for every chart of what its motors do. */
export function drawFromAbove({ id, title, description, motors, gravity }: FromAbove): Chart {
  const reach = 1.45 * Math.max(...motors.map(({ right, forward }) => Math.max(Math.abs(right), Math.abs(forward))));
  const arms = motors.flatMap(({ motor, right, forward }) => [
    { motor, right: 0, forward: 0 },
    { motor, right, forward },
  ]);
  return staticChart({
    id,
    title,
    description,
    height: SIZE,
    width: SIZE + 60,
    datasets: { motors, arms, gravity },
    layers: layers(reach),
  });
}

/** Arms, motors sized and coloured by `excess`, their words and names, the nose, and the centre of gravity. */
function layers(reach: number): Layer[] {
  const scale = { domain: [-reach, reach], nice: false, zero: false };
  const x = {
    field: "right",
    type: "quantitative",
    scale,
    axis: { title: "right of the middle (m)", grid: false, tickCount: 5 },
  };
  const y = {
    field: "forward",
    type: "quantitative",
    scale,
    axis: { title: "forward of the middle (m)", grid: false, tickCount: 5 },
  };
  return [
    {
      data: { name: "arms" },
      mark: { type: "line", color: LIGHT.faint, strokeWidth: 4, opacity: 0.4, aria: false },
      encoding: { x, y, detail: { field: "motor" } },
    },
    {
      data: { name: "motors" },
      mark: { type: "point", filled: true, opacity: 0.85, stroke: LIGHT.ink, strokeWidth: 1 },
      encoding: {
        x,
        y,
        size: {
          field: "excess",
          type: "quantitative",
          legend: null,
          scale: { domain: [-0.5, 0.5], range: [250, 2600], clamp: true },
        },
        color: {
          condition: { test: "datum.excess > 0", value: LIGHT.setpoint },
          value: LIGHT.response,
        },
        description: { field: "words", type: "nominal" },
      },
    },
    {
      data: { name: "motors" },
      mark: { type: "text", fontWeight: "bold", dy: -38, aria: false },
      encoding: { x, y, text: { field: "words", type: "nominal" } },
    },
    {
      data: { name: "motors" },
      mark: { type: "text", dy: 38, color: LIGHT.ink, aria: false },
      encoding: { x, y, text: { field: "motor", type: "nominal" } },
    },
    {
      data: { values: [{}] },
      mark: { type: "text", text: "▲ nose", x: { expr: "width / 2" }, y: 8, fontWeight: "bold", aria: false },
      encoding: {},
    },
    {
      data: { name: "gravity" },
      transform: [{ calculate: "0", as: "origin" }],
      mark: { type: "rule", color: LIGHT.ink, strokeWidth: 2, strokeDash: DASHES.response, aria: false },
      encoding: {
        x: { field: "origin", type: "quantitative" },
        x2: { field: "right" },
        y: { field: "origin", type: "quantitative" },
        y2: { field: "forward" },
      },
    },
    {
      data: { name: "gravity" },
      mark: { type: "point", shape: "cross", filled: true, size: 120, color: LIGHT.ink, aria: false },
      encoding: { x, y },
    },
    {
      data: { name: "gravity" },
      mark: { type: "text", align: "left", dx: 9, dy: 3, aria: false },
      encoding: { x, y, text: { field: "words", type: "nominal" } },
    },
  ];
}
