import { Resvg } from "@resvg/resvg-js";
import { CHART_FONT, type Chart } from "../charts/index.ts";
import { renderSvg } from "./render-svg.ts";
import { fontFiles } from "./runtime-assets.ts";

/** The chart as PNG at `scale` times its size, set in the font that ships with the package and in no other. */
export async function renderPng(chart: Chart, scale = 2): Promise<Uint8Array> {
  const picture = new Resvg(await renderSvg(chart), {
    fitTo: { mode: "zoom", value: scale },
    font: { loadSystemFonts: false, fontFiles: fontFiles(), defaultFontFamily: CHART_FONT },
  });
  return picture.render().asPng();
}
