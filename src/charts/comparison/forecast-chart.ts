import { type Comparison, type ComparisonForecast, forecastValue } from "../../findings/comparison/index.ts";
import { numberWords } from "../../words/index.ts";
import type { Chart } from "../chart.ts";
import { significant } from "../significant.ts";
import { DASHES, LIGHT } from "../theme.ts";
import { staticChart } from "../time-chart.ts";

/** Points of the drawn trend: enough for a smooth curve. */
const CURVE_POINTS = 40;

/** One quantity against speed on the legs of the flight after, its trend, and the interval at the next step. */
export function forecastChart(comparison: Comparison, forecast: ComparisonForecast): Chart | undefined {
  const { nextStep } = comparison;
  if (nextStep === null) return undefined;
  const { points, trend, next, limit, name, quantity } = forecast;
  const isShare = quantity !== "damping" && quantity !== "flutter-margin";
  const last = nextStep.speed;
  const first = Math.min(...points.map(({ speed }) => speed));
  const at = (speed: number) => trend.reduce((sum, c, power) => sum + c * speed ** power, 0);
  const curve = Array.from({ length: CURVE_POINTS + 1 }, (_, i) => {
    const speed = first + ((last - first) * i) / CURVE_POINTS;
    return { speed: significant(speed), value: significant(at(speed)) };
  });
  const words = (value: number) => forecastValue(quantity, value);
  const title = `${name} at ${numberWords(last, 3)} m/s: ${words(next.value)}, between ${words(next.low)} and ${words(next.high)}, if the trend goes on.`;
  const values = [...points.map(({ value }) => value), next.low, next.high, limit, ...curve.map(({ value }) => value)];
  const margin = 0.06 * (Math.max(...values) - Math.min(...values));
  const x = {
    field: "speed",
    type: "quantitative",
    scale: {
      domain: [
        significant(Math.max(0, first - 1)),
        significant(1.06 * Math.max(last, ...points.map(({ speed }) => speed))),
      ],
      nice: false,
    },
    axis: { title: "speed of the leg (m/s)", tickCount: 8, grid: false },
  };
  const y = (field: string) => ({
    field,
    type: "quantitative",
    scale: {
      domain: [significant(Math.min(...values) - margin), significant(Math.max(...values) + margin)],
      nice: false,
      zero: false,
    },
    axis: { title: AXIS_TITLES[quantity], tickCount: 5, ...(isShare ? { format: ".0%" } : {}) },
  });
  return staticChart({
    id: forecast.id,
    title,
    description: `${title} Points: legs of the flight after. Dashed: the trend. Bar: 90 % interval at the next step. Dotted: the limit, ${words(limit)}.`,
    height: 180,
    datasets: {
      curve,
      points: points.map(({ speed, value }) => ({ speed: significant(speed), value: significant(value) })),
      next: [
        {
          speed: significant(last),
          value: significant(next.value),
          low: significant(next.low),
          high: significant(next.high),
        },
      ],
    },
    layers: [
      {
        data: { name: "curve" },
        mark: { type: "line", color: LIGHT.setpoint, strokeDash: DASHES.setpoint, aria: false },
        encoding: { x, y: y("value") },
      },
      {
        data: { name: "points" },
        mark: {
          type: "point",
          shape: "square",
          filled: true,
          size: 50,
          color: LIGHT.setpoint,
          opacity: 1,
          aria: false,
        },
        encoding: { x, y: y("value") },
      },
      {
        data: { name: "next" },
        mark: { type: "rule", strokeWidth: 5, opacity: 0.5, color: LIGHT.setpoint, aria: false },
        encoding: { x, y: y("low"), y2: { field: "high" } },
      },
      {
        data: { name: "next" },
        mark: {
          type: "point",
          shape: "diamond",
          filled: true,
          size: 90,
          color: LIGHT.setpoint,
          opacity: 1,
          aria: false,
        },
        encoding: { x, y: y("value") },
      },
      {
        data: { values: [{}] },
        mark: { type: "rule", color: LIGHT.limit, strokeDash: DASHES.limit, strokeWidth: 1.4, aria: false },
        encoding: { y: { datum: limit, type: "quantitative" } },
      },
      {
        data: { values: [{}] },
        mark: {
          type: "text",
          text: "evidence against below this",
          align: "left",
          x: 4,
          dy: 9,
          color: LIGHT.limit,
          aria: false,
        },
        encoding: { y: { datum: limit, type: "quantitative" } },
      },
    ],
  });
}

const AXIS_TITLES: Readonly<Record<ComparisonForecast["quantity"], string>> = {
  "headroom-above": "share of full thrust",
  "headroom-below": "share of full thrust",
  authority: "share of what hover has",
  damping: "damping ratio",
  "flutter-margin": "share of the slowest step's",
};
