import { type HeadroomTrend, headroomTrend } from "../detect/index.ts";
import type { Finding } from "../findings/finding.ts";
import { capital, numberWords, percentWords } from "../words/index.ts";
import type { Chart } from "./chart.ts";
import type { Drawing } from "./drawing.ts";
import { motorWords } from "./motor-words.ts";
import { DASHES, LIGHT } from "./theme.ts";
import { staticChart } from "./time-chart.ts";

/** Points of the drawn trend: enough for a smooth curve. */
const CURVE_POINTS = 40;

/**
 * Thrust that a motor had left to its ceiling in hover and on each steady leg, against battery voltage as it was, with
 * the voltage at which none is left and its interval where that can be foretold.
 * @returns undefined where no voltage is foretold, unless the flight has one speed only, so that voltage alone can tell
 */
export function chartHeadroomVoltage(drawing: Drawing, finding: Finding): Chart | undefined {
  if (finding.motor === undefined) return undefined;
  const trend = headroomTrend(drawing.flight, finding.motor);
  if (trend === null || trend.law === null) return undefined;
  const { voltageForecast: forecast } = trend;
  const isOneSpeed = new Set(trend.points.map(({ step }) => step)).size < 2;
  if (forecast === null && !isOneSpeed) return undefined;
  const rows = trend.points.flatMap(({ voltage, aboveThen, speed }) =>
    voltage === null ? [] : [{ voltage: rounded(voltage), left: rounded(aboveThen), speed }],
  );
  const name = motorWords(drawing.flight, finding.motor);
  const lowest = rows.reduce((least, row) => (row.voltage < least.voltage ? row : least));
  const highest = Math.max(...rows.map(({ voltage }) => voltage));
  const title =
    forecast === null
      ? `${capital(name)} had ${percentWords(lowest.left)} of its thrust left to its ceiling at ${numberWords(lowest.voltage)} V.`
      : `${capital(name)} would have no thrust left ${forecast.speed === 0 ? "in hover" : `at ${numberWords(forecast.speed)} m/s`} at about ${numberWords(forecast.voltage)} V.`;
  const last = forecast === null ? lowest.voltage : forecast.range;
  const room = 0.03 * (highest - last);
  const x = {
    field: "voltage",
    type: "quantitative",
    // As the flight went on: a battery empties to the right.
    sort: "descending",
    scale: { domain: [rounded(last - room), rounded(highest + room)], nice: false, zero: false },
    axis: { title: "battery voltage (V), falling", tickCount: 8 },
  };
  const y = {
    field: "left",
    type: "quantitative",
    scale: { zero: true },
    axis: { title: "thrust left (share of full thrust)", tickCount: 5, format: ".0%" },
  };
  const like = rows.filter(({ speed }) => forecast === null || speed === forecast.speed);
  const point = { type: "point", shape: "circle", filled: true, size: 50, aria: false };
  return staticChart({
    id: `${finding.id}-voltage`,
    title,
    description: `${title} Thrust left to the ceiling over battery voltage: strong points are the flight that asked the most, pale ones the rest; the curve is the trend, the bar at the foot the 90 % interval of the voltage.`,
    height: 200,
    datasets: {
      like,
      other: rows.filter((row) => !like.includes(row)),
      curve: forecast === null ? [] : curveOf(forecast, highest),
      interval:
        forecast === null ? [] : [{ voltage: rounded(forecast.low ?? last), until: rounded(forecast.high), left: 0 }],
    },
    layers: [
      {
        data: { name: "interval" },
        mark: { type: "rule", color: LIGHT.setpoint, strokeWidth: 6, opacity: 0.5, aria: false },
        encoding: { x, x2: { field: "until" }, y },
      },
      {
        data: { name: "curve" },
        mark: { type: "line", color: LIGHT.setpoint, strokeDash: DASHES.setpoint, aria: false },
        encoding: { x, y },
      },
      { data: { name: "other" }, mark: { ...point, color: LIGHT.response, opacity: 0.35 }, encoding: { x, y } },
      { data: { name: "like" }, mark: { ...point, color: LIGHT.response }, encoding: { x, y } },
    ],
  });
}

function curveOf(forecast: NonNullable<HeadroomTrend["voltageForecast"]>, highest: number) {
  const { range, share, reference, exponent } = forecast;
  return Array.from({ length: CURVE_POINTS + 1 }, (_, i) => {
    const voltage = range + ((highest - range) * i) / CURVE_POINTS;
    return { voltage: rounded(voltage), left: rounded(1 - share * (voltage / reference) ** -exponent) };
  }).filter(({ left }) => left >= 0);
}

const rounded = (value: number) => Number(value.toPrecision(5));
