import { forecastHeadroomAt, headroomTrend, SPENT } from "../detect/index.ts";
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
 * Thrust that a motor had left in hover and on each steady leg, against speed, with the forecast of the speed at which
 * none is left and its interval where there is one.
 * @returns undefined for a flight with fewer than two speeds
 */
export function chartHeadroomTrend(drawing: Drawing, finding: Finding): Chart | undefined {
  if (finding.motor === undefined) return undefined;
  const trend = headroomTrend(drawing.flight, finding.motor);
  if (trend === null || new Set(trend.points.map(({ step }) => step)).size < 2) return undefined;
  const { points, forecast } = trend;
  const name = motorWords(drawing.flight, finding.motor);
  const fastest = points.reduce((most, point) => (point.speed > most.speed ? point : most));
  const title =
    forecast === null
      ? `${capital(name)} had ${percentWords(Math.min(fastest.above, fastest.below))} of its thrust left to its nearer limit at ${numberWords(fastest.speed)} m/s.`
      : `${capital(name)} would come within ${percentWords(SPENT)} of full thrust of its ${forecast.limit} at about ${numberWords(forecast.speed)} m/s.`;
  const last = forecast === null ? fastest.speed : forecast.range;
  const curve =
    forecast === null
      ? []
      : Array.from({ length: CURVE_POINTS + 1 }, (_, i) => {
          const speed = (last * i) / CURVE_POINTS;
          return {
            speed: rounded(speed),
            left: rounded(forecastHeadroomAt(forecast, speed)),
          };
        }).filter(({ left }) => left >= 0);
  const x = {
    field: "speed",
    type: "quantitative",
    scale: { domain: [0, rounded(last * 1.03)], nice: false },
    axis: { title: "speed of the leg, 0 in hover (m/s)", tickCount: 8 },
  };
  const y = {
    field: "left",
    type: "quantitative",
    scale: { zero: true },
    axis: { title: "thrust left (share of full thrust)", tickCount: 5, format: ".0%" },
  };
  const side = (field: "above" | "below") =>
    points.map((point) => ({ speed: rounded(point.speed), left: rounded(point[field]) }));
  return staticChart({
    id: `${finding.id}-trend`,
    title,
    description: `${title} Thrust left over speed: round points to the ceiling, square ones to the floor; the curve is the trend, the bar at the foot its 90 % interval.`,
    height: 200,
    datasets: {
      above: side("above"),
      below: side("below"),
      curve,
      interval:
        forecast === null ? [] : [{ speed: rounded(forecast.low), until: rounded(forecast.high ?? last), left: 0 }],
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
      {
        data: { name: "above" },
        mark: { type: "point", shape: "circle", filled: true, size: 50, color: LIGHT.response, aria: false },
        encoding: { x, y },
      },
      {
        data: { name: "below" },
        mark: { type: "point", shape: "square", filled: true, size: 50, color: LIGHT.third, aria: false },
        encoding: { x, y },
      },
    ],
  });
}

const rounded = (value: number) => Number(value.toPrecision(5));
