import type { TopLevelSpec } from "vega-lite";
import type { Span } from "../log/channel.ts";
import type { Chart } from "./chart.ts";
import { chartConfig, DASHES, LIGHT, type Palette } from "./theme.ts";

/** Part of a layered spec. Loose here, because every finished spec is checked against Vega-Lite's own JSON Schema. */
export type Layer = Readonly<Record<string, unknown>>;

/** What to say about a line under the pointer: the dataset that holds `time` and `value`, and how to name and read it. */
export interface ReadoutLine {
  readonly data: string;
  readonly label: string;
  readonly unit: string;
}

export interface TimeChartParts {
  readonly id: string;
  readonly title: string;
  readonly description: string;
  /** px, height of the drawing without title and axis */
  readonly height: number;
  /** s, what the chart shows at first */
  readonly span: Span;
  readonly datasets: Readonly<Record<string, readonly object[]>>;
  readonly layers: readonly Layer[];
  /** the lines whose values can be read off, in the order in which they are named */
  readonly readout?: readonly ReadoutLine[];
  /** room for a key above the drawing */
  readonly key?: readonly KeyEntry[];
}

export interface KeyEntry {
  readonly label: string;
  readonly colour: keyof Palette;
  readonly dash?: readonly number[];
}

/** The horizontal encoding of every chart over time: the two parameters `from` and `to` say which stretch is shown. */
export const TIME_X = {
  field: "time",
  type: "quantitative",
  scale: { domain: [{ expr: "from" }, { expr: "to" }], nice: false, zero: false },
  axis: { title: "time from the start of the log (s)", grid: false, tickCount: { expr: "max(3, width / 90)" } },
} as const;

/** Keeps only what the shown stretch needs, with a little on both sides so that lines run on to the edges. */
export const IN_WINDOW = { filter: "datum.time >= from - (to - from) * 0.05 && datum.time <= to + (to - from) * 0.05" };

/** A chart over time. Whoever shows it moves it by setting `from` and `to`. */
export function timeChart(parts: TimeChartParts): Chart {
  const { span, readout = [], key = [], layers } = parts;
  const params = [
    { name: "from", value: span.start },
    { name: "to", value: span.end },
  ];
  return chartOf(
    { ...parts, layers: [...layers, ...key.flatMap(keyLayers)] },
    { params, usermeta: { fettle: { time: true, readout } } },
    key.length > 0 ? 30 : 12,
  );
}

export interface StaticChartParts
  extends Pick<TimeChartParts, "id" | "title" | "description" | "height" | "datasets" | "layers"> {
  /** px, where the drawing must keep its shape; else it takes the width it is given */
  readonly width?: number;
}

/** A chart whose horizontal axis is not time. */
export function staticChart(parts: StaticChartParts): Chart {
  return chartOf(parts, { usermeta: { fettle: { time: false, readout: [] } } }, 12);
}

function chartOf(parts: StaticChartParts, extra: object, offset: number): Chart {
  const { id, title, description, height, datasets, layers, width = CHART_WIDTH } = parts;
  const spec = {
    $schema: "https://vega.github.io/schema/vega-lite/v6.json",
    title: { text: wrapTitle(title, Math.floor(width / TITLE_LETTER)), offset },
    description,
    width,
    height,
    ...extra,
    datasets,
    layer: layers,
    config: chartConfig(LIGHT),
  };
  return { id, title, description, spec: spec as unknown as TopLevelSpec };
}

/** px, the width of a chart that stands alone; a page gives it the width it has. */
export const CHART_WIDTH = 720;

/** One line of a chart over time, broken where data is missing. */
export function lineLayer(data: string, colour: keyof Palette, y: object, dash?: readonly number[]): Layer {
  return {
    data: { name: data },
    transform: [IN_WINDOW],
    mark: {
      type: "line",
      clip: true,
      color: LIGHT[colour],
      interpolate: "linear",
      invalid: "break-paths-show-domains",
      aria: false,
      ...(dash === undefined ? {} : { strokeDash: dash }),
    },
    encoding: { x: TIME_X, y },
  };
}

/** The same for what lasts: what lies far outside would still be drawn, and the picture renderer fails on it. */
export const REACHES_WINDOW = { filter: "datum.until >= from && datum.time <= to" };

/** Tall bands over the stretches of a finding; rows hold `time`, `until` and `level`. */
export function stretchLayer(data: string): Layer {
  return {
    data: { name: data },
    transform: [REACHES_WINDOW],
    mark: { type: "rect", clip: true, opacity: 0.16, aria: false },
    encoding: { x: TIME_X, x2: { field: "until" }, color: LEVEL_COLOUR },
  };
}

const LEVELS = ["warning", "caution", "advisory", "note"] as const;
const PHASES = ["ground", "climb", "hover", "cruise", "turn", "descent", "unknown"] as const;

/** One scale for alert levels and phases, because the layers of a chart share it. */
const STATE_SCALE = { domain: [...LEVELS, ...PHASES], range: [...LEVELS, ...PHASES].map((state) => LIGHT[state]) };

/** Colour by alert level. */
export const LEVEL_COLOUR = { field: "level", type: "nominal", legend: null, scale: STATE_SCALE } as const;

/** Colour by phase of flight. */
export const PHASE_COLOUR = { field: "phase", type: "nominal", legend: null, scale: STATE_SCALE } as const;

/** A horizontal line at a limit with its name on it. */
export function limitLayers(y: number, label: string, below = false): Layer[] {
  const here = { data: { values: [{}] } };
  const encoding = { y: { datum: y, type: "quantitative" } };
  return [
    {
      ...here,
      mark: { type: "rule", color: LIGHT.limit, strokeDash: DASHES.limit, strokeWidth: 1.4, aria: false },
      encoding,
    },
    {
      ...here,
      mark: {
        type: "text",
        text: label,
        align: "right",
        x: { expr: "width" },
        dx: -4,
        dy: below ? 9 : -7,
        color: LIGHT.limit,
        aria: false,
      },
      encoding,
    },
  ];
}

const KEY_STEP = 150;

/** The key stands above the drawing, each name beside a piece of its line: no legend to look up elsewhere. */
function keyLayers(entry: KeyEntry, index: number): Layer[] {
  const x = index * KEY_STEP;
  const data = { values: [{}] };
  return [
    {
      data,
      mark: {
        type: "rule",
        color: LIGHT[entry.colour],
        strokeWidth: 2,
        aria: false,
        ...(entry.dash === undefined ? {} : { strokeDash: entry.dash }),
      },
      encoding: { x: { value: x }, x2: { value: x + 26 }, y: { value: -12 } },
    },
    { data, mark: { type: "text", text: entry.label, align: "left", x: x + 32, y: -12, aria: false }, encoding: {} },
  ];
}

/** px: without a canvas Vega takes a letter for 0.8 of its size, and a title taken for wider than it is widens the picture. */
const TITLE_LETTER = 0.8 * 13;

/** A title in lines of at most `width` characters, because a picture does not wrap by itself. */
export function wrapTitle(title: string, width: number): string[] {
  const lines: string[] = [];
  let line = "";
  for (const word of title.split(" ")) {
    if (line !== "" && line.length + 1 + word.length > width) {
      lines.push(line);
      line = word;
    } else line = line === "" ? word : `${line} ${word}`;
  }
  return [...lines, line];
}
