import { parse, View } from "vega";
import type { Chart } from "../charts/index.ts";
import { compileChart } from "./compile-chart.ts";

/** The chart as a picture of its own, with title, in the light theme. */
export async function renderSvg(chart: Chart): Promise<string> {
  const view = new View(parse(compileChart(chart, chart.spec) as never), { renderer: "none" });
  try {
    return await view.toSVG();
  } finally {
    view.finalize();
  }
}
