import { type HeadroomTrend, headroomTrend, SPENT } from "../detect/index.ts";
import type { Finding } from "../findings/finding.ts";
import { capital, numberWords, percentWords } from "../words/index.ts";
import type { Chart } from "./chart.ts";
import type { Drawing } from "./drawing.ts";
import { motorWords } from "./motor-words.ts";
import { pointKey } from "./point-key.ts";
import { significant } from "./significant.ts";
import { pointLayer, trendCurve, trendLayers } from "./thrust-left.ts";
import { staticChart } from "./time-chart.ts";

/**
 * Thrust that a motor had left to its ceiling in hover and on each steady leg, against battery voltage as it was, with
 * the voltage at which it is spent and its interval where that can be foretold.
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
    voltage === null ? [] : [{ voltage: significant(voltage), left: significant(aboveThen), speed }],
  );
  const name = motorWords(drawing.flight, finding.motor);
  const lowest = rows.reduce((least, row) => (row.voltage < least.voltage ? row : least));
  const highest = Math.max(...rows.map(({ voltage }) => voltage));
  const title =
    forecast === null
      ? `${capital(name)} had ${percentWords(lowest.left)} of its thrust left to its ceiling at ${numberWords(lowest.voltage)} V.`
      : `${capital(name)} would come within ${percentWords(SPENT)} of full thrust of its ceiling ${forecast.speed === 0 ? "in hover" : `at ${numberWords(forecast.speed)} m/s`} at about ${numberWords(forecast.voltage)} V.`;
  const last = forecast === null ? lowest.voltage : forecast.range;
  const room = 0.03 * (highest - last);
  const x = {
    field: "voltage",
    type: "quantitative",
    // As the flight went on: a battery empties to the right.
    sort: "descending",
    scale: { domain: [significant(last - room), significant(highest + room)], nice: false, zero: false },
    axis: { title: "battery voltage (V), falling", tickCount: 8 },
  };
  const like = rows.filter(({ speed }) => forecast === null || speed === forecast.speed);
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
        forecast === null
          ? []
          : [{ voltage: significant(forecast.low ?? last), until: significant(forecast.high), left: 0 }],
    },
    layers: [
      ...trendLayers(x),
      pointLayer("other", x, OTHER.mark),
      pointLayer("like", x, LIKE.mark),
      ...(like.length === rows.length ? [] : pointKey([LIKE, OTHER])),
    ],
  });
}

const LIKE = { label: "asked the most", mark: {} } as const;
const OTHER = { label: "the rest", mark: { opacity: 0.35 } } as const;

function curveOf(forecast: NonNullable<HeadroomTrend["voltageForecast"]>, highest: number) {
  const { range, share, reference, exponent } = forecast;
  return trendCurve(range, highest, (voltage) => ({
    voltage: significant(voltage),
    left: significant(1 - share * (voltage / reference) ** -exponent),
  }));
}
