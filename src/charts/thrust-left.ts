import { POINT } from "./point-key.ts";
import { DASHES, LIGHT } from "./theme.ts";
import type { Layer } from "./time-chart.ts";

/** Points of a drawn trend: enough for a smooth curve. */
const CURVE_POINTS = 40;

/** The vertical encoding of every chart of thrust left; rows hold `left`. */
export const THRUST_LEFT = {
  field: "left",
  type: "quantitative",
  scale: { zero: true },
  axis: { title: "thrust left (share of full thrust)", tickCount: 5, format: ".0%" },
} as const;

/** A trend sampled from one end to the other, as far as it stays above zero. */
export function trendCurve<Row extends { readonly left: number }>(
  from: number,
  to: number,
  rowAt: (x: number) => Row,
): Row[] {
  const rows = Array.from({ length: CURVE_POINTS + 1 }, (_, i) => rowAt(from + ((to - from) * i) / CURVE_POINTS));
  return rows.filter(({ left }) => left >= 0);
}

/** The trend (dataset `curve`) and, at its foot, where it may come to nothing (dataset `interval`, up to `until`). */
export function trendLayers(x: object): Layer[] {
  return [
    {
      data: { name: "interval" },
      mark: { type: "rule", color: LIGHT.setpoint, strokeWidth: 6, opacity: 0.5, aria: false },
      encoding: { x, x2: { field: "until" }, y: THRUST_LEFT },
    },
    {
      data: { name: "curve" },
      mark: { type: "line", color: LIGHT.setpoint, strokeDash: DASHES.setpoint, aria: false },
      encoding: { x, y: THRUST_LEFT },
    },
  ];
}

/** What was flown, as points. */
export function pointLayer(data: string, x: object, mark: object): Layer {
  return {
    data: { name: data },
    mark: { ...POINT, color: LIGHT.response, ...mark },
    encoding: { x, y: THRUST_LEFT },
  };
}
