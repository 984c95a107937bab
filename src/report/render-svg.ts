import type { Chart } from "../charts/index.ts";

/** The chart as a picture of its own, with title, in the light theme; the same chart gives the same bytes. */
export async function renderSvg(chart: Chart): Promise<string> {
  // Loaded only here: it takes a third of a second, and most reports draw in the reader's browser.
  const [{ parse, View }, { compileChart }] = await Promise.all([import("vega"), import("./compile-chart.ts")]);
  const view = new View(parse(compileChart(chart, chart.spec)), { renderer: "none" });
  try {
    return renumbered(await view.toSVG());
  } finally {
    view.finalize();
  }
}

/** Vega numbers clipping paths on through a whole process; here they count from 1 in each picture. */
function renumbered(svg: string): string {
  const numbers = new Map<string, number>();
  return svg.replace(/(id="|url\(#)(clip|gradient_)(\d+)/g, (_, before: string, kind: string, old: string) => {
    const number = numbers.get(kind + old) ?? numbers.size + 1;
    numbers.set(kind + old, number);
    return `${before}${kind}${number}`;
  });
}
