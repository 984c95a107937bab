import { valuesWithin } from "../detect/index.ts";
import { channelOf, commandedMotors } from "../flight/flight.ts";
import { quantile } from "../signal/index.ts";
import { capital, displayUnit, percentWords } from "../words/index.ts";
import type { Chart } from "./chart.ts";
import { type CommandLimits, commandLimits, fractionOf } from "./command-limits.ts";

import type { Drawing } from "./drawing.ts";
import { LANE_FILL, laneAxis } from "./lane-axis.ts";
import { laneName, motorWords } from "./motor-words.ts";

import { stretchRows } from "./stretch-rows.ts";
import { DASHES, LIGHT } from "./theme.ts";
import { IN_WINDOW, type Layer, LEVEL_COLOUR, TIME_X, timeChart } from "./time-chart.ts";

const LANE_HEIGHT = 62;

/**
 * Every motor's command in a lane of its own, between its floor and its ceiling, with the stretches of findings about
 * that motor marked. Lanes share one scale: the same height is the same part of the range.
 * @returns undefined where no motor command is logged
 */
export function chartMotorCommands(drawing: Drawing): Chart | undefined {
  const { flight } = drawing;
  const motors = commandedMotors(flight);
  if (motors.length === 0) return undefined;
  const limits = commandLimits(flight);
  const lanes = motors.map((motor, index) => ({
    motor,
    foot: motors.length - 1 - index,
    data: `motor.${motor}.command`,
  }));
  const unit = displayUnit(limits.unit).label;
  const names = lanes.map(({ motor }) => laneName(flight, motor)).reverse();
  const title = commandsTitle(drawing, limits);
  return timeChart({
    id: "motor-commands",
    title,
    description: `${title} One lane per motor over time; the bottom of a lane is the lowest command of the range, its top line the ceiling, its dotted lower line the armed floor.`,
    height: LANE_HEIGHT * motors.length,
    span: drawing.whole,
    datasets: {
      marked: markedStretches(drawing, lanes),
      ...Object.fromEntries(lanes.map(({ data }) => [data, drawing.line(channelOf(flight, data)!)])),
    },
    layers: [
      {
        ...markedLayer,
        encoding: {
          ...markedLayer.encoding,
          y: laneAxis("foot", names, "motor; each lane is its command range"),
          y2: { field: "top" },
        },
      },
      ...lanes.flatMap((lane) => laneLayers(lane, limits)),
    ],
    readout: lanes.map(({ motor, data }) => ({ data, label: motorWords(flight, motor), unit })),
  });
}

interface Lane {
  readonly motor: number;
  /** lane co-ordinate of its bottom */
  readonly foot: number;
  readonly data: string;
}

const markedLayer = {
  data: { name: "marked" },
  mark: { type: "rect", clip: true, opacity: 0.28, aria: false },
  encoding: { x: TIME_X, x2: { field: "until" }, color: LEVEL_COLOUR },
};

function laneLayers(lane: Lane, limits: CommandLimits): Layer[] {
  const inLane = (fraction: number) => lane.foot + LANE_FILL * fraction;
  const rule = (fraction: number) => ({
    data: { values: [{}] },
    mark: { type: "rule", color: LIGHT.limit, strokeDash: DASHES.limit, opacity: 0.9, aria: false },
    encoding: { y: { datum: inLane(fraction), type: "quantitative" } },
  });
  return [
    rule(1),
    rule(fractionOf(limits, limits.idle)),
    {
      data: { name: lane.data },
      transform: [
        IN_WINDOW,
        {
          calculate: `datum.value == null ? null : ${lane.foot} + ${LANE_FILL} * (datum.value - ${limits.min}) / ${limits.max - limits.min}`,
          as: "height",
        },
      ],
      mark: { type: "line", clip: true, color: LIGHT.response, invalid: "break-paths-show-domains", aria: false },
      encoding: { x: TIME_X, y: { field: "height", type: "quantitative" } },
    },
  ];
}

function markedStretches({ findings, whole }: Drawing, lanes: readonly Lane[]): object[] {
  return findings.flatMap((finding) => {
    const about = new Set([...(finding.motors ?? []), ...(finding.motor === undefined ? [] : [finding.motor])]);
    return lanes
      .filter(({ motor }) => about.has(motor))
      .flatMap(({ foot }) => stretchRows([finding], whole).map((row) => ({ ...row, foot, top: foot + LANE_FILL })));
  });
}

function commandsTitle(drawing: Drawing, limits: CommandLimits): string {
  const { flight, findings } = drawing;
  const worst = findings
    .filter(({ kind, measures }) => (kind === "motor-saturation" || kind === "motor-floor") && "share" in measures)
    .sort((a, b) => shareOf(b) - shareOf(a))[0];
  if (worst?.motor !== undefined) {
    const limit = worst.kind === "motor-floor" ? "floor" : "ceiling";
    return `${capital(motorWords(flight, worst.motor))} was at its ${limit} for ${percentWords(shareOf(worst))} of the time in the air.`;
  }
  if (!limits.known) return "Motor commands as logged; no aircraft file says where their limits are.";
  const highest = commandedMotors(flight)
    .map((motor) => ({
      motor,
      commands: valuesWithin(channelOf(flight, `motor.${motor}.command`)!.series, flight.airborne),
    }))
    .filter(({ commands }) => commands.length > 0)
    .map(({ motor, commands }) => ({ motor, fraction: fractionOf(limits, quantile(commands, 0.99)) }))
    .sort((a, b) => b.fraction - a.fraction)[0];
  if (highest === undefined) return "Motor commands against their limits.";
  if (highest.fraction >= 1)
    return `${capital(motorWords(flight, highest.motor))} spent 1 % of the time in the air or more at its ceiling.`;
  return `${capital(motorWords(flight, highest.motor))} came nearest to its ceiling, with ${percentWords(1 - highest.fraction)} of the range left above its 99th percentile.`;
}

function shareOf(finding: Drawing["findings"][number]): number {
  const share = finding.measures.share;
  return share === undefined || Array.isArray(share) ? 0 : share.value;
}
