import { AXES } from "../aircraft/aircraft.ts";
import type { Finding } from "../findings/finding.ts";
import type { Flight } from "../flight/flight.ts";
import { chartAuthority } from "./authority.ts";
import { CHARTS_BY_KIND, sharedCharts } from "./by-kind.ts";
import type { Chart } from "./chart.ts";
import { chartCommandDistribution } from "./command-distribution.ts";
import { chartDataQuality } from "./data-quality.ts";
import { prepareDrawing } from "./drawing.ts";
import { chartMotorCommands } from "./motor-commands.ts";
import { chartTimeline } from "./timeline.ts";
import { chartTracking, LOOPS, type Loop } from "./tracking.ts";

/** Everything drawn for a diagnosis. */
export interface FlightCharts {
  readonly charts: readonly Chart[];
  /** ids of the charts of each finding, most telling first; every finding has an entry */
  readonly byFinding: ReadonlyMap<string, readonly string[]>;
}

/** Charts of the whole flight and, where its kind has some, charts of each finding. Ids are unique and fit file names. */
export function chartsFor(flight: Flight, findings: readonly Finding[]): FlightCharts {
  const drawing = prepareDrawing(flight, findings);
  const overview = [
    chartTimeline(drawing),
    chartMotorCommands(drawing),
    chartCommandDistribution(drawing),
    ...AXES.map((axis) => chartAuthority(drawing, axis)),
    ...(Object.keys(LOOPS) as Loop[]).flatMap((loop) => AXES.map((axis) => chartTracking(drawing, axis, loop))),
    chartDataQuality(drawing),
  ].filter((chart) => chart !== undefined);
  const own: Chart[] = [];
  const byFinding = new Map<string, readonly string[]>();
  for (const finding of findings) {
    const charts = (CHARTS_BY_KIND[finding.kind] ?? [])
      .map((draw) => draw(drawing, finding))
      .filter((chart) => chart !== undefined);
    own.push(...charts);
    const shared = sharedCharts(finding).filter((id) => overview.some((chart) => chart.id === id));
    byFinding.set(finding.id, [...charts.map(({ id }) => id), ...shared]);
  }
  return { charts: [...overview, ...own], byFinding };
}
