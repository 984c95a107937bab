import { forecastHeadroomAt, headroomTrend, SPENT } from "../detect/index.ts";
import type { Finding } from "../findings/finding.ts";
import { capital, numberWords, percentWords } from "../words/index.ts";
import type { Chart } from "./chart.ts";
import type { Drawing } from "./drawing.ts";
import { motorWords } from "./motor-words.ts";
import { pointKey } from "./point-key.ts";
import { significant } from "./significant.ts";
import { LIGHT } from "./theme.ts";
import { pointLayer, trendCurve, trendLayers } from "./thrust-left.ts";
import { staticChart } from "./time-chart.ts";

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
      : trendCurve(0, last, (speed) => ({
          speed: significant(speed),
          left: significant(forecastHeadroomAt(forecast, speed)),
        }));
  const x = {
    field: "speed",
    type: "quantitative",
    scale: { domain: [0, significant(last * 1.03)], nice: false },
    axis: { title: "speed of the leg, 0 in hover (m/s)", tickCount: 8 },
  };
  const side = (field: "above" | "below") =>
    points.map((point) => ({ speed: significant(point.speed), left: significant(point[field]) }));
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
        forecast === null
          ? []
          : [{ speed: significant(forecast.low), until: significant(forecast.high ?? last), left: 0 }],
    },
    layers: [
      ...trendLayers(x),
      pointLayer("above", x, ABOVE.mark),
      pointLayer("below", x, BELOW.mark),
      ...pointKey([ABOVE, BELOW]),
    ],
  });
}

const ABOVE = { label: "to the ceiling", mark: {} } as const;
const BELOW = { label: "to the floor", mark: { shape: "square", color: LIGHT.third } } as const;
