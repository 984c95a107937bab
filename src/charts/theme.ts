import type { TopLevelSpec } from "vega-lite";

/** What a colour is for. Every role has its own value in each palette, so that a page can exchange one set for another. */
export interface Palette {
  readonly paper: string;
  readonly ink: string;
  readonly faint: string;
  readonly grid: string;
  /** what the aircraft did */
  readonly response: string;
  /** what was asked of it */
  readonly setpoint: string;
  readonly third: string;
  readonly fourth: string;
  readonly limit: string;
  readonly warning: string;
  readonly caution: string;
  readonly advisory: string;
  readonly note: string;
  readonly ground: string;
  readonly climb: string;
  readonly hover: string;
  readonly cruise: string;
  readonly turn: string;
  readonly descent: string;
  readonly unknown: string;
}

/** Series from the Okabe-Ito set, those that reach 3:1 on white paper; levels reach 4.5:1 because they also carry text. */
export const LIGHT: Palette = {
  paper: "#fffefb",
  ink: "#1d1f21",
  faint: "#5b5f63",
  grid: "#e2e0da",
  response: "#0072b2",
  setpoint: "#d55e00",
  third: "#009e73",
  fourth: "#cc79a7",
  limit: "#3a3d40",
  warning: "#a3161f",
  caution: "#875200",
  advisory: "#24578f",
  note: "#595d61",
  ground: "#d9d6cd",
  climb: "#c4d9c9",
  hover: "#cfe0ee",
  cruise: "#e6dcc3",
  turn: "#dccfe0",
  descent: "#efd3c6",
  unknown: "#ecebe7",
};

/** The same roles on dark paper: Okabe-Ito's sky blue and orange take the place of blue and vermillion. */
export const DARK: Palette = {
  paper: "#15181b",
  ink: "#ecebe6",
  faint: "#a9adb1",
  grid: "#30353a",
  response: "#56b4e9",
  setpoint: "#e69f00",
  third: "#0bbd8b",
  fourth: "#dd94ba",
  limit: "#c6c9cc",
  warning: "#ff8b80",
  caution: "#f2b84b",
  advisory: "#8fc1f2",
  note: "#adb1b5",
  ground: "#3a3935",
  climb: "#2c4433",
  hover: "#26405a",
  cruise: "#4a4026",
  turn: "#43344a",
  descent: "#553629",
  unknown: "#292c30",
};

/** Dash patterns carry the same distinction as the colours, for readers who do not see those. */
export const DASHES = { response: [1, 0], setpoint: [6, 3], limit: [2, 3] } as const;

/** The font of stored pictures; it ships with the package so that a picture is the same on every machine. */
export const CHART_FONT = "DejaVu Sans";

/** Vega-Lite configuration shared by every chart. */
export function chartConfig(palette: Palette): NonNullable<TopLevelSpec["config"]> {
  return {
    background: palette.paper,
    font: CHART_FONT,
    padding: 8,
    title: {
      anchor: "start",
      frame: "group",
      fontSize: 13,
      fontWeight: "bold",
      color: palette.ink,
      offset: 12,
      lineHeight: 18,
    },
    axis: {
      labelColor: palette.ink,
      titleColor: palette.ink,
      titleFontWeight: "normal",
      labelFontSize: 11,
      titleFontSize: 11,
      titlePadding: 8,
      gridColor: palette.grid,
      domainColor: palette.faint,
      tickColor: palette.faint,
    },
    // Charts above one another line up where their labels allow it.
    axisY: { minExtent: 46 },
    view: { stroke: null },
    text: { color: palette.ink, fontSize: 11 },
    line: { strokeWidth: 1.2, strokeJoin: "round", color: palette.response },
    rule: { color: palette.limit },
    rect: { color: palette.unknown },
    bar: { color: palette.response },
    area: { color: palette.response },
    point: { color: palette.response },
  };
}
