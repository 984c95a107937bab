import { steadyTrims, type Trim, withoutWind } from "../detect/index.ts";
import type { Finding } from "../findings/finding.ts";
import { studentTQuantile } from "../signal/index.ts";
import { numberWords, percentWords } from "../words/index.ts";
import type { Chart } from "./chart.ts";
import type { Drawing } from "./drawing.ts";
import { type LoadBar, type LoadSeries, loadLanes, MOST_SERIES } from "./load-lanes.ts";
import { laneName } from "./motor-words.ts";
import { staticChart } from "./time-chart.ts";

/**
 * What each motor carries beyond the mean of all, in hover and in every speed step and direction: what stays the same
 * in all of them is the aircraft, what grows with speed or turns with the leg is the air.
 * @returns undefined without steady flight or an aircraft file
 */
export function chartLoadByPhase(drawing: Drawing, finding: Finding): Chart | undefined {
  const found = steadyTrims(drawing.flight);
  if (found === null || found.trims.length === 0) return undefined;
  const { layout, trims } = found;
  const shown = (trims.length > MOST_SERIES ? withoutWind(trims) : trims).slice(0, MOST_SERIES);
  const series = shown.map(
    (trim): LoadSeries => ({
      label: conditionWords(trim),
      bars: Array.from(trim.shares, (share, i) => barOf(trim, i, share, layout.healthy[i]!)),
    }),
  );
  const names = Array.from(layout.healthy, (_, i) => laneName(drawing.flight, i + 1));
  const title = titleOf(series[0]!);
  return staticChart({
    id: `${finding.id}-by-phase`,
    title,
    description: `${title} ${series.map(({ label, bars }) => `${label}: ${bars.map(({ motor, value }) => `motor ${motor} ${percentWords(value)}`).join(", ")}`).join("; ")}.`,
    ...loadLanes(series, names),
  });
}

function barOf({ covariance, degreesOfFreedom }: Trim, i: number, share: number, healthy: number): LoadBar {
  const variance = covariance.data[i * covariance.columns + i]!;
  const reach = (studentTQuantile(0.975, degreesOfFreedom) * Math.sqrt(variance)) / healthy;
  const value = share / healthy - 1;
  return { motor: i + 1, value, low: value - reach, high: value + reach };
}

function conditionWords({ condition: { kind, speed, direction } }: Trim): string {
  if (kind !== "cruise") return kind === "hover" ? "hover" : "whole flight";
  return `${numberWords(speed!, 2)} m/s${direction === null ? "" : ` ${direction}`}`;
}

function titleOf({ label, bars }: LoadSeries): string {
  const most = [...bars].sort((a, b) => b.value - a.value)[0]!;
  return `In ${label === "hover" ? "hover" : `steady flight (${label})`} motor ${most.motor} carries most: ${percentWords(most.value)} beyond the mean of all.`;
}
