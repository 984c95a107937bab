import { CHART_WIDTH, type Chart, DARK, LIGHT, type Palette, type ReadoutLine } from "../charts/index.ts";

/** A dataset by columns: a third of the size of rows. `time` holds differences in steps of 0.1 ms. */
type Columns = Record<string, readonly unknown[]>;

interface PackedChart {
  readonly id: string;
  /** Vega-Lite, its datasets named and empty: the page fills and compiles it when it draws */
  readonly spec: object;
  /** name of a dataset in the chart -> its number in `datasets` */
  readonly data: Readonly<Record<string, number>>;
  readonly time: boolean;
  /** takes the width that it is given */
  readonly wide: boolean;
  readonly readout: readonly ReadoutLine[];
}

/** All charts of a page as one JSON value; datasets that charts share stand in it once. */
export interface PackedCharts {
  readonly datasets: readonly Columns[];
  readonly charts: readonly PackedChart[];
}

interface PageSpec {
  readonly width?: unknown;
  readonly datasets?: Readonly<Record<string, readonly object[]>>;
  readonly usermeta?: { readonly fettle?: { readonly time: boolean; readonly readout: readonly ReadoutLine[] } };
}

/** Charts as a page takes them: without titles (the page sets them in type), sized by the page, coloured by its style. */
export function packCharts(charts: readonly Chart[]): PackedCharts {
  const datasets: Columns[] = [];
  const numbers = new Map<readonly object[], number>();
  const numberOf = (rows: readonly object[]) => {
    const known = numbers.get(rows);
    if (known !== undefined) return known;
    numbers.set(rows, datasets.length);
    return datasets.push(columnsOf(rows)) - 1;
  };
  const packed = charts.map((chart): PackedChart => {
    const { datasets: named = {}, usermeta, width } = chart.spec as unknown as PageSpec;
    const wide = width === CHART_WIDTH;
    return {
      id: chart.id,
      spec: pageSpec(chart, Object.keys(named), wide),
      data: Object.fromEntries(Object.entries(named).map(([name, rows]) => [name, numberOf(rows)])),
      time: usermeta?.fettle?.time ?? false,
      wide,
      readout: usermeta?.fettle?.readout ?? [],
    };
  });
  return { datasets, charts: packed };
}

function pageSpec(chart: Chart, names: readonly string[], wide: boolean): object {
  const { title: _, $schema: __, usermeta: ___, ...rest } = chart.spec as unknown as Record<string, unknown>;
  const spec = {
    ...rest,
    ...(wide ? { autosize: { type: "fit-x", contains: "padding" } } : {}),
    datasets: Object.fromEntries(names.map((name) => [name, []])),
  };
  return JSON.parse(colouredByStyle(JSON.stringify(spec))) as object;
}

const ROLES = new Map((Object.keys(LIGHT) as (keyof Palette)[]).map((role) => [LIGHT[role], role]));

/** Every colour of the light palette becomes the style variable of its role, so that the page decides light or dark. */
function colouredByStyle(json: string): string {
  return json.replace(/"(#[0-9a-f]{6})"/g, (whole, colour: string) => {
    const role = ROLES.get(colour);
    return role === undefined ? whole : `"var(--${role})"`;
  });
}

/** Style variables of one palette, as CSS declarations. */
export function paletteVariables(which: "light" | "dark"): string {
  return Object.entries(which === "light" ? LIGHT : DARK)
    .map(([role, colour]) => `--${role}: ${colour};`)
    .join(" ");
}

function columnsOf(rows: readonly object[]): Columns {
  const names = new Set<string>();
  for (const row of rows) for (const name of Object.keys(row)) names.add(name);
  return Object.fromEntries(
    [...names].map((name) => {
      const column = rows.map((row) => (row as Record<string, unknown>)[name] ?? null);
      return [name, name === "time" ? timeSteps(column as number[]) : column];
    }),
  );
}

/** s -> whole steps of 0.1 ms, each the difference from the one before. */
function timeSteps(times: readonly number[]): number[] {
  let previous = 0;
  return times.map((time) => {
    const steps = Math.round(time * 1e4);
    const step = steps - previous;
    previous = steps;
    return step;
  });
}
