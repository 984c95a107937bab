import { thinned, valuesWithin } from "../detect/index.ts";
import { channelOf, commandedMotors } from "../flight/flight.ts";
import { quantiles } from "../signal/index.ts";
import { capital, displayUnit, percentWords } from "../words/index.ts";
import type { Chart } from "./chart.ts";
import { type CommandLimits, commandLimits, fractionOf } from "./command-limits.ts";

import type { Drawing } from "./drawing.ts";
import { laneAxis } from "./lane-axis.ts";
import { laneName, motorWords } from "./motor-words.ts";

import { significant } from "./significant.ts";
import { DASHES, LIGHT } from "./theme.ts";
import { type Layer, staticChart } from "./time-chart.ts";

const BINS = 72;
const LANE_HEIGHT = 46;

/**
 * How often each motor was asked for how much while in the air: one hill per motor over the command range, with the
 * middle of its commands and the ends that hold all but the outer 1 % on each side.
 * @returns undefined where no motor command is logged or the aircraft never left the ground
 */
export function chartCommandDistribution(drawing: Drawing): Chart | undefined {
  const { flight } = drawing;
  const limits = commandLimits(flight);
  const motors = commandedMotors(flight)
    .map((motor) => ({
      motor,
      commands: valuesWithin(channelOf(flight, `motor.${motor}.command`)!.series, flight.airborne),
    }))
    .filter(({ commands }) => commands.length > 1);
  if (motors.length === 0) return undefined;
  const unit = displayUnit(limits.unit).label;
  const lanes = motors.map(({ motor, commands }, index) => {
    const [low, middle, high] = quantiles(thinned(commands), [0.01, 0.5, 0.99]);
    return {
      motor: capital(motorWords(flight, motor)),
      foot: motors.length - 1 - index,
      middle: significant(middle!),
      low: significant(low!),
      high: significant(high!),
      commands,
    };
  });
  const title = distributionTitle(lanes, limits);
  const range = `${limits.min} to ${limits.max}${unit === "" ? "" : ` ${unit}`}`;
  return staticChart({
    id: "command-distribution",
    title,
    description: `${title} ${lanes.map((lane) => `${lane.motor}: half of the commands below ${lane.middle}, 98 % between ${lane.low} and ${lane.high} ${unit}`).join("; ")}. Range ${range}.`,
    height: LANE_HEIGHT * lanes.length,
    datasets: {
      hills: lanes.flatMap(({ motor, foot, commands }) =>
        hill(commands, limits).map((row) => ({ ...row, motor, foot, top: significant(foot + 0.82 * row.height, 4) })),
      ),
      lanes: lanes.map(({ commands: _, ...lane }) => lane),
      limits: [
        { value: limits.max, words: limits.known ? `ceiling ${limits.max}` : `highest ${limits.max}` },
        { value: limits.idle, words: limits.known ? `floor ${limits.idle}` : `lowest ${limits.idle}` },
      ],
    },
    layers: layers(limits, unit, motors.map(({ motor }) => laneName(flight, motor)).reverse()),
  });
}

function layers(limits: CommandLimits, unit: string, names: readonly string[]): Layer[] {
  const margin = 0.03 * (limits.max - limits.min);
  const scale = { domain: [limits.min - margin, limits.max + margin], nice: false, zero: false };
  const axis = {
    title: `motor command in the air${unit === "" ? "" : ` (${unit})`}`,
    grid: false,
    tickCount: { expr: "max(3, width / 90)" },
  };
  const x = (field: string) => ({ field, type: "quantitative", scale, axis });
  const y = laneAxis("foot", names, null);
  return [
    {
      data: { name: "hills" },
      mark: { type: "area", color: LIGHT.response, opacity: 0.45, interpolate: "step-after", aria: false },
      encoding: { x: x("command"), y, y2: { field: "top" }, detail: { field: "motor" } },
    },
    {
      data: { name: "limits" },
      mark: { type: "rule", color: LIGHT.limit, strokeDash: DASHES.limit, strokeWidth: 1.4, aria: false },
      encoding: { x: x("value") },
    },
    {
      data: { name: "lanes" },
      mark: { type: "rule", color: LIGHT.ink, strokeWidth: 1.5, aria: false },
      encoding: { x: x("low"), x2: { field: "high" }, y },
    },
    {
      data: { name: "lanes" },
      mark: { type: "point", color: LIGHT.ink, fill: LIGHT.ink, size: 34, opacity: 1, aria: false },
      encoding: { x: x("middle"), y },
    },
    {
      data: { name: "limits" },
      mark: { type: "text", y: -8, color: LIGHT.limit, aria: false },
      encoding: { x: x("value"), text: { field: "words", type: "nominal" } },
    },
  ];
}

/** Share of samples per bin of the range, as a height of which 1 is the fullest bin of this motor. */
function hill(commands: Float64Array, { min, max }: CommandLimits): { command: number; height: number }[] {
  const width = (max - min) / BINS;
  const counts = new Uint32Array(BINS);
  for (let i = 0; i < commands.length; i++) {
    const value = commands[i]!;
    // The ceiling itself belongs to the last bin: a motor that rests there must be seen to.
    const bin = value === max ? BINS - 1 : Math.floor((value - min) / width);
    if (bin >= 0 && bin < BINS) counts[bin]! += 1;
  }
  const most = Math.max(1, ...counts);
  return [...counts, counts[BINS - 1]!].map((count, bin) => ({
    command: significant(min + bin * width),
    height: count / most,
  }));
}

function distributionTitle(
  lanes: readonly { motor: string; low: number; high: number }[],
  limits: CommandLimits,
): string {
  if (!limits.known) return "How often each motor was asked for how much; no aircraft file says where the limits are.";
  const tightest = lanes
    .flatMap(({ motor, low, high }) => [
      { motor, side: "ceiling", left: 1 - fractionOf(limits, high) },
      { motor, side: "floor", left: (low - limits.idle) / (limits.max - limits.min) },
    ])
    .sort((a, b) => a.left - b.left)[0]!;
  if (tightest.left <= 0)
    return `${tightest.motor} had no room left: 1 % of its commands or more were at its ${tightest.side}.`;
  return `${tightest.motor} had the least room: ${percentWords(tightest.left)} of the range between its ${tightest.side} and 99 % of its commands.`;
}
