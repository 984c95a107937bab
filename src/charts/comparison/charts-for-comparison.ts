import {
  type Comparison,
  type ComparisonForecast,
  type ComparisonRow,
  changeWords,
  levelWords,
} from "../../findings/comparison/index.ts";
import { capital, displayUnit, numberWords } from "../../words/index.ts";
import type { Chart } from "../chart.ts";
import { staticChart } from "../time-chart.ts";
import { bySpeed, type SpeedPoint } from "./by-speed.ts";
import { forecastChart } from "./forecast-chart.ts";
import { motorsFromAbove } from "./motors-from-above.ts";
import { SIDES } from "./sides.ts";

/** Every chart of a comparison: power and steadiness against speed, the motors before and after, the forecasts. */
export function chartsForComparison(comparison: Comparison): Chart[] {
  const charts = [
    chartPower(comparison),
    ...(["roll", "pitch", "yaw"] as const).map((axis) => chartSteadiness(comparison, axis)),
    ...SIDES.map((side) => motorsFromAbove(comparison, side)),
    ...forecastsToDraw(comparison).map((forecast) => forecastChart(comparison, forecast)),
  ];
  return charts.filter((chart) => chart !== undefined);
}

/** Rows of one quantity that have levels, by rising speed. */
function pointsOf({ tables, conditions }: Comparison, wanted: (row: ComparisonRow) => boolean): SpeedPoint[] {
  return tables
    .flatMap(({ rows }) => rows)
    .filter((row) => wanted(row) && row.before !== undefined && row.after !== undefined)
    .flatMap((row) => {
      const condition = conditions.find(({ id }) => id === row.condition);
      if (condition === undefined || condition.kind === "flight") return [];
      const { before, after } = condition.speed;
      return [{ row, speed: condition.kind === "hover" ? 0 : ((before ?? 0) + (after ?? 0)) / 2 }];
    })
    .sort((a, b) => a.speed - b.speed);
}

function chartPower(comparison: Comparison): Chart | undefined {
  const { tables, conditions } = comparison;
  const key = tables.find(({ id }) => id === "power")?.rows[0]?.quantity;
  const points = pointsOf(comparison, ({ quantity, motor }) => quantity === key && motor === undefined);
  if (key === undefined || points.length < 2) return undefined;
  const withLegs = points.map((point): SpeedPoint => {
    const { legs, kind } = conditions.find(({ id }) => id === point.row.condition)!;
    const drawn = (side: "before" | "after") =>
      kind !== "cruise" || key !== "power"
        ? []
        : legs[side].flatMap(({ air, ground, power }) => {
            const speed = air ?? ground;
            return power === null || speed === null ? [] : [{ speed, value: power }];
          });
    return { ...point, legs: { before: drawn("before"), after: drawn("after") } };
  });
  const fastest = points.at(-1)!.row;
  const title = `${key === "power" ? "Power" : fastest.name} at ${levelSpeed(points)}: ${changeWords(fastest)} after the change.`;
  const { label } = displayUnit(fastest.unit);
  return staticChart({
    id: "power-by-speed",
    title,
    description: `${title} ${inWords(points, comparison)} Bars are 95 % intervals; open marks are single legs at their speed through the air.`,
    ...bySpeed(
      withLegs,
      key === "power" ? "power (W)" : `${fastest.name.toLowerCase()} ${label === "" ? "" : `(${label})`}`,
      {
        zero: false,
      },
    ),
  });
}

function chartSteadiness(comparison: Comparison, axis: string): Chart | undefined {
  const of = (loop: string) =>
    pointsOf(comparison, (row) => row.quantity === "error-rms" && row.axis === axis && row.loop === loop);
  const loop = of("attitude").length > 1 ? "attitude" : "rate";
  const points = of(loop);
  if (points.length < 2) return undefined;
  const fastest = points.at(-1)!.row;
  const { label } = displayUnit(fastest.unit);
  const title = `${capital(axis)} error at ${levelSpeed(points)}: ${levelWords(fastest, fastest.before!.value)} before, ${levelWords(fastest, fastest.after!.value)} after.`;
  return staticChart({
    id: `steadiness-${axis}`,
    title,
    description: `${title} Usual size (rms) of the ${axis} ${loop === "rate" ? "rate" : "angle"} error. ${inWords(points, comparison)} Bars are 95 % intervals.`,
    ...bySpeed(points, `${axis} ${loop === "rate" ? "rate" : "angle"} error, rms (${label})`),
  });
}

const levelSpeed = (points: readonly SpeedPoint[]) => `${numberWords(points.at(-1)!.speed, 2)} m/s`;

function inWords(points: readonly SpeedPoint[], { conditions }: Comparison): string {
  return points
    .map(({ row }) => {
      const name = conditions.find(({ id }) => id === row.condition)!.name;
      return `${capital(name)}: ${levelWords(row, row.before!.value)} before, ${levelWords(row, row.after!.value)} after.`;
    })
    .join(" ");
}

/** Charts that a reader can take in. */
const MOST_FORECASTS = 4;

/** Those that speak against the step first, then those nearest to their limit. */
function forecastsToDraw({ nextStep }: Comparison): ComparisonForecast[] {
  const rank = { against: 0, undecided: 1, "not-against": 2 } as const;
  return (nextStep?.forecasts ?? [])
    .toSorted(
      (a, b) =>
        rank[a.verdict] - rank[b.verdict] ||
        (a.speedAtLimit ?? Number.POSITIVE_INFINITY) - (b.speedAtLimit ?? Number.POSITIVE_INFINITY),
    )
    .slice(0, MOST_FORECASTS);
}
