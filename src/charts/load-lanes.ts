import { percentWords } from "../words/index.ts";
import { laneAxis } from "./lane-axis.ts";
import { pointKey } from "./point-key.ts";
import { significant } from "./significant.ts";
import { LIGHT, type Palette } from "./theme.ts";
import type { StaticChartParts } from "./time-chart.ts";

/** One bar: what one motor carries beyond the mean of all, in one series (a phase of flight, or one of two flights). */
export interface LoadBar {
  readonly motor: number;
  readonly value: number;
  readonly low: number;
  readonly high: number;
}

export interface LoadSeries {
  readonly label: string;
  readonly bars: readonly LoadBar[];
}

const COLOURS: readonly (keyof Palette)[] = ["response", "setpoint", "third", "fourth", "faint"];
/** More series than this cannot be told apart in a lane. */
export const MOST_SERIES = COLOURS.length;

const BAR_HEIGHT = 11;
/** A key wider than this squeezes the picture on paper and on a telephone. */
const KEY_COLUMNS = 2;

/** Bars from the mean of all motors with their 95 % intervals, a lane per motor, a bar per series. */
export function loadLanes(
  series: readonly LoadSeries[],
  names: readonly string[],
): Pick<StaticChartParts, "height" | "datasets" | "layers"> {
  const step = 0.8 / series.length;
  const rows = series.flatMap(({ label, bars }, s) =>
    bars.map(({ motor, value, low, high }) => ({
      series: label,
      motor,
      // Motor 1 on top; within a lane the first series on top.
      lane: significant(names.length - motor + 0.8 - (s + 0.5) * step, 5),
      zero: 0,
      value: significant(100 * value),
      low: significant(100 * low),
      high: significant(100 * high),
      words: `${value > 0 ? "+" : ""}${percentWords(value)}`,
    })),
  );
  const colour = {
    field: "series",
    type: "nominal",
    legend: null,
    scale: { domain: series.map(({ label }) => label), range: COLOURS.map((name) => LIGHT[name]) },
  };
  const axis = { title: "thrust demand beyond the mean of all motors (%)", grid: true, tickCount: 8 };
  const x = (field: string) => ({ field, type: "quantitative", axis });
  const y = laneAxis("lane", [...names].reverse(), null);
  const bars = { data: { name: "bars" } };
  return {
    height: Math.max(120, names.length * (series.length * BAR_HEIGHT + 16)),
    datasets: { bars: rows },
    layers: [
      {
        ...bars,
        mark: { type: "rule", strokeWidth: BAR_HEIGHT - 4, opacity: 0.55, aria: false },
        encoding: { x: x("zero"), x2: { field: "value" }, y, color: colour },
      },
      {
        ...bars,
        mark: { type: "rule", strokeWidth: 1.5, color: LIGHT.ink, aria: false },
        encoding: { x: x("low"), x2: { field: "high" }, y },
      },
      {
        ...bars,
        mark: { type: "point", filled: true, size: 26, opacity: 1 },
        encoding: { x: x("value"), y, color: colour, description: { field: "words", type: "nominal" } },
      },
      ...pointKey(
        series.map(({ label }, s) => ({ label, mark: { color: LIGHT[COLOURS[s]!], opacity: 1 } })),
        KEY_COLUMNS,
      ),
    ],
  };
}
