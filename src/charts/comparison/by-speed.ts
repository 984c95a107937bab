import type { ComparisonRow } from "../../findings/comparison/index.ts";
import { displayUnit } from "../../words/index.ts";
import { significant } from "../significant.ts";
import { LIGHT } from "../theme.ts";
import type { Layer, StaticChartParts } from "../time-chart.ts";
import { SIDE_STYLE, SIDES, type Side, sideKey } from "./sides.ts";

/** One quantity at one condition: its row, the speed it stands at (m/s) and, where wanted, each leg by itself. */
export interface SpeedPoint {
  readonly row: ComparisonRow;
  readonly speed: number;
  readonly legs?: Readonly<Record<Side, readonly { readonly speed: number; readonly value: number }[]>>;
}

/** Levels before and after against speed, with their 95 % intervals and the legs that they rest on. */
export function bySpeed(
  points: readonly SpeedPoint[],
  yTitle: string,
  options: { zero?: boolean } = {},
): Pick<StaticChartParts, "height" | "datasets" | "layers"> {
  const { factor } = displayUnit(points[0]!.row.unit);
  const shown = (value: number) => significant(value * factor);
  const fastest = Math.max(...points.map(({ speed }) => speed));
  // The two flights stand side by side, so that their intervals do not cover each other.
  const apart = 0.012 * Math.max(1, fastest);
  const place = (speed: number, side: Side) => significant(speed + (side === "before" ? -apart : apart));
  const levels = SIDES.flatMap((side) =>
    points.flatMap(({ row, speed }) => {
      const level = row[side];
      if (level === undefined) return [];
      return [
        { side, speed: place(speed, side), value: shown(level.value), low: shown(level.low), high: shown(level.high) },
      ];
    }),
  );
  const legs = SIDES.flatMap((side) =>
    points.flatMap((point) =>
      (point.legs?.[side] ?? []).map(({ speed, value }) => ({ side, speed: significant(speed), value: shown(value) })),
    ),
  );
  const x = {
    field: "speed",
    type: "quantitative",
    scale: {
      domain: [-0.04 * fastest, 1.06 * Math.max(fastest, ...legs.map(({ speed }) => speed))].map((v) => significant(v)),
      nice: false,
    },
    axis: { title: "speed, 0 in hover (m/s)", tickCount: 8, grid: false },
  };
  // An interval that says "not known" would squeeze everything else to a line: it may leave the drawing.
  const seen = [...levels, ...legs].map(({ value }) => value);
  const [least, most] = [Math.min(...seen), Math.max(...seen)];
  const ends = levels.flatMap(({ low, high }) => [low, high]);
  const isZero = options.zero ?? true;
  const floor = isZero ? Math.min(0, least) : Math.max(Math.min(...ends, least), least - 1.5 * (most - least));
  const ceiling = isZero ? Math.min(Math.max(...ends, most), 2.5 * most) : Math.max(...ends, most);
  const margin = 0.04 * (ceiling - floor);
  const domain = [significant(isZero ? floor : floor - margin), significant(ceiling + margin)];
  const y = (field: string) => ({
    field,
    type: "quantitative",
    scale: { domain, nice: false, zero: false },
    axis: { title: yTitle, tickCount: 6 },
  });
  const colour = {
    field: "side",
    type: "nominal",
    legend: null,
    scale: { domain: [...SIDES], range: SIDES.map((side) => LIGHT[SIDE_STYLE[side].colour]) },
  };
  const shape = {
    field: "side",
    type: "nominal",
    legend: null,
    scale: { domain: [...SIDES], range: SIDES.map((side) => SIDE_STYLE[side].shape) },
  };
  const layers: Layer[] = [
    {
      data: { name: "levels" },
      mark: { type: "line", strokeWidth: 1.2, opacity: 0.7, aria: false },
      encoding: { x, y: y("value"), color: colour },
    },
    {
      data: { name: "levels" },
      mark: { type: "rule", strokeWidth: 2, clip: true, aria: false },
      encoding: { x, y: y("low"), y2: { field: "high" }, color: colour },
    },
    {
      data: { name: "levels" },
      mark: { type: "point", filled: true, size: 60, opacity: 1, aria: false },
      encoding: { x, y: y("value"), color: colour, shape },
    },
    {
      data: { name: "legs" },
      mark: { type: "point", filled: false, size: 36, strokeWidth: 1, opacity: 0.8, aria: false },
      encoding: { x, y: y("value"), color: colour, shape },
    },
    ...sideKey(),
  ];
  return { height: 220, datasets: { levels, legs }, layers };
}
