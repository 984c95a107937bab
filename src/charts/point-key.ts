import { LIGHT } from "./theme.ts";
import type { Layer } from "./time-chart.ts";

/** How points are drawn unless they say otherwise. */
export const POINT = { type: "point", shape: "circle", filled: true, size: 50, aria: false } as const;

/** px from one entry to the next, and from one line to the next */
const STEP = 165;
const LINE = 15;

/** What each kind of point stands for, in lines above the drawing: no legend to look up elsewhere. */
export function pointKey(
  entries: readonly { readonly label: string; readonly mark: object }[],
  columns = entries.length,
): Layer[] {
  const data = { values: [{}] };
  const last = Math.ceil(entries.length / columns) - 1;
  return entries.flatMap(({ label, mark }, index) => {
    const x = (index % columns) * STEP;
    const y = -10 - LINE * (last - Math.floor(index / columns));
    return [
      { data, mark: { ...POINT, color: LIGHT.response, ...mark, x: x + 5, y }, encoding: {} },
      { data, mark: { type: "text", text: label, align: "left", x: x + 14, y, aria: false }, encoding: {} },
    ];
  });
}
