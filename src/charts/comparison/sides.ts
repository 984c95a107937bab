import { LIGHT, type Palette } from "../theme.ts";
import type { Layer } from "../time-chart.ts";

export const SIDES = ["before", "after"] as const;
export type Side = (typeof SIDES)[number];

/** How each flight is drawn in every chart of a comparison: colour and shape say the same thing. */
export const SIDE_STYLE: Readonly<Record<Side, { colour: keyof Palette; shape: string }>> = {
  before: { colour: "response", shape: "circle" },
  after: { colour: "setpoint", shape: "square" },
};

const KEY_STEP = 110;

/** Names the two flights above the drawing, each beside its mark. */
export function sideKey(): Layer[] {
  return SIDES.flatMap((side, index): Layer[] => {
    const { colour, shape } = SIDE_STYLE[side];
    const data = { values: [{}] };
    const at = index * KEY_STEP + 6;
    return [
      {
        data,
        mark: {
          type: "point",
          filled: true,
          shape,
          size: 60,
          opacity: 1,
          color: LIGHT[colour],
          x: at,
          y: -10,
          aria: false,
        },
        encoding: {},
      },
      { data, mark: { type: "text", text: side, align: "left", x: at + 9, y: -10, aria: false }, encoding: {} },
    ];
  });
}
