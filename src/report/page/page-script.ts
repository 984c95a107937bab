import { SCRIPT_CHARTS } from "./script-charts.ts";
import { SCRIPT_DATA } from "./script-data.ts";
import { SCRIPT_POINTER } from "./script-pointer.ts";
import { SCRIPT_WINDOW } from "./script-window.ts";

/** Everything the page runs besides the chart runtime: unpack, draw, move, read off. */
export const PAGE_SCRIPT = `"use strict";
(() => {
${SCRIPT_DATA}${SCRIPT_CHARTS}${SCRIPT_WINDOW}${SCRIPT_POINTER}
})();`;
