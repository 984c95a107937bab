export { type PageOptions, renderPage } from "./render-page.ts";
export { renderPng } from "./render-png.ts";
export { renderReportText } from "./render-report-text.ts";
export { renderSvg } from "./render-svg.ts";
export { renderText, type TextOptions } from "./render-text.ts";
export { renderSpec, renderTicket, type Ticket } from "./render-ticket.ts";
export { type RuntimeAssets, runtimeAssets } from "./runtime-assets.ts";
export { safeFileName } from "./safe-file-name.ts";
export { bySeverity, type WhatFirst, whatFirst } from "./what-first.ts";
