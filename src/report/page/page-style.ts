import { paletteVariables } from "../pack-charts.ts";

/** The page's style sheet. Colours are variables of the palette, so light, dark and print differ in one place each. */
export const PAGE_STYLE = `
:root { color-scheme: light; ${paletteVariables("light")} --raised: #f6f4ee; --line: #d5d2c8; }
@media screen and (prefers-color-scheme: dark) {
  :root { color-scheme: dark; ${paletteVariables("dark")} --raised: #1d2125; --line: #3a3f45; }
}

* { box-sizing: border-box; }
html { scroll-padding-top: 4.5rem; }
body {
  margin: 0; background: var(--paper); color: var(--ink);
  font: 1rem/1.55 "Charter", "Bitstream Charter", "Iowan Old Style", "Source Serif 4", "Noto Serif", "DejaVu Serif", Georgia, serif;
  overflow-wrap: anywhere;
}
h1, h2, h3, h4, .number, .badge, button, table, figure, .facts, .bar, .when { font-family: system-ui, "Noto Sans", "DejaVu Sans", sans-serif; }
h1 { font-size: 1.35rem; line-height: 1.25; margin: 0 0 .25rem; }
h2 { font-size: 1.25rem; margin: 3.2rem 0 .4rem; padding-top: .8rem; border-top: 3px double var(--line); }
h3 { font-size: 1.12rem; line-height: 1.3; margin: 0; }
h4, .minor { font-size: .92rem; margin: 1rem 0 .1rem; }
p, ul, ol { margin: .35rem 0 .6rem; }
ul, ol { padding-left: 1.3rem; }
a { color: var(--advisory); }
:focus-visible { outline: 3px solid var(--advisory); outline-offset: 2px; border-radius: 2px; }
.skip { position: absolute; left: -99rem; }
.skip:focus { left: 1rem; top: .5rem; background: var(--paper); padding: .3rem .6rem; z-index: 9; }
header, main, footer { max-width: 74rem; margin: 0 auto; padding: 0 1.25rem; }
header { padding-top: 1.6rem; }
main > section > p, .prose { max-width: 46rem; }
.faint { color: var(--faint); }
.facts { font-size: .86rem; color: var(--faint); margin: 0; }

/* what to do first */
.first { margin: 1.2rem 0 0; padding: 0; list-style: none; display: grid; gap: .7rem; }
.first > li { border-left: .5rem solid var(--level); background: var(--raised); padding: .7rem 1rem .6rem; border-radius: 0 .4rem .4rem 0; }
.first .headline { font-size: 1.05rem; line-height: 1.3; font-weight: 700; margin: .1rem 0; }
.first .warning .headline, .first .caution .headline { font-size: 1.25rem; }
.first .small { display: flex; flex-wrap: wrap; gap: .1rem .8rem; align-items: baseline; padding-top: .4rem; padding-bottom: .4rem; }
.first .small p, .first .small ul { margin: 0; } .first .small .prose { flex: 1 1 24rem; max-width: none; }
.first .small li { display: inline-block; margin-right: .9rem; }
.first ul { list-style: none; padding: 0; margin: .2rem 0 0; }
.first ul li { margin-bottom: .3rem; } .first a { color: inherit; }
.first .words li { margin: .7rem 0; } .first .words li a:first-child { font-weight: 700; } .first .words p { margin: .15rem 0 0; max-width: 46rem; }
.warning { --level: var(--warning); } .caution { --level: var(--caution); } .advisory { --level: var(--advisory); } .note { --level: var(--note); }
.badge { display: inline-block; color: var(--level); border: 1.5px solid currentColor; border-radius: 1rem; padding: 0 .55rem; font-size: .78rem; font-weight: 600; line-height: 1.45; white-space: nowrap; }
.badge::before { content: "\\25CB\\00a0"; }
.badge.warning::before { content: "\\25B2\\00a0"; } .badge.caution::before { content: "\\25C6\\00a0"; } .badge.advisory::before { content: "\\25CF\\00a0"; }

/* the bar that says which stretch the charts show */
.bar { position: sticky; top: 0; z-index: 5; display: flex; flex-wrap: wrap; gap: .3rem .6rem; align-items: center; background: var(--paper); border-bottom: 1px solid var(--line); padding: .35rem 0; font-size: .86rem; margin-top: 1rem; }
.bar output { flex: 1 1 15rem; min-width: 0; }
button { font-size: .84rem; color: var(--ink); background: var(--raised); border: 1px solid var(--faint); border-radius: .35rem; padding: .22rem .6rem; cursor: pointer; }
button:hover:not(:disabled) { border-color: var(--ink); }
button:disabled { color: var(--faint); border-color: var(--line); cursor: default; }
button[aria-pressed="true"] { background: var(--ink); color: var(--paper); border-color: var(--ink); }

/* the list under the time line */
.list { list-style: none; padding: 0; margin: .2rem 0 0; display: grid; grid-template-columns: repeat(auto-fill, minmax(17rem, 1fr)); gap: .35rem; }
.list button { width: 100%; height: 100%; text-align: left; display: flex; gap: .55rem; align-items: baseline; border-left: .35rem solid var(--level); }
.number { font-weight: 700; font-variant-numeric: tabular-nums; min-width: 1.3em; white-space: nowrap; color: var(--level); }
button[aria-pressed="true"] .number, button[aria-pressed="true"] .when { color: inherit; }
.when { margin-left: auto; color: var(--faint); white-space: nowrap; font-variant-numeric: tabular-nums; }

/* findings hang on a thread of time */
.thread { list-style: none; margin: 1rem 0 0; padding: 0 0 0 1.6rem; border-left: 2px solid var(--line); }
.finding { position: relative; padding: .2rem 0 2.2rem; display: grid; grid-template-columns: minmax(0, 26rem) minmax(0, 1fr); gap: .4rem 2.2rem; align-items: start; }
.finding::before { content: ""; position: absolute; left: calc(-1.6rem - 7px); top: .55rem; width: 12px; height: 12px; border-radius: 50%; background: var(--level); box-shadow: 0 0 0 3px var(--paper); }
.finding.chosen::before { box-shadow: 0 0 0 3px var(--paper), 0 0 0 6px var(--level); }
.finding > .top { grid-column: 1 / -1; display: flex; flex-wrap: wrap; gap: .3rem .8rem; align-items: baseline; }
.finding .when { margin: 0; font-size: .9rem; }
.finding .summary { font-size: 1.06rem; }
.finding .dont { border-left: 3px solid var(--level); padding-left: .8rem; font-size: .92rem; }
.folded { grid-column: 1 / -1; }
.folded .open { display: grid; grid-template-columns: minmax(0, 24rem) minmax(0, 1fr); gap: .4rem 2.2rem; color: var(--ink); font-size: 1rem; }
.finding.note { padding-bottom: 1.2rem; }
.finding.note::before { width: 8px; height: 8px; left: calc(-1.6rem - 5px); top: .7rem; }
.measures { font-size: .86rem; }

/* charts */
figure { margin: 0 0 1.4rem; min-width: 0; }
figcaption { font-size: .95rem; font-weight: 600; line-height: 1.35; margin-bottom: .3rem; }
.unseen { position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%); white-space: nowrap; }
.plot { position: relative; overflow: hidden; min-height: 3rem; touch-action: pan-y pinch-zoom; border-radius: .2rem; }
.plot[data-time] { cursor: crosshair; }
.plot svg { display: block; max-width: 100%; height: auto; }
.plot svg text { font-family: system-ui, "Noto Sans", "DejaVu Sans", sans-serif; }
.plot .cursor, .plot .brush { position: absolute; top: 0; bottom: 0; pointer-events: none; }
.plot .cursor { width: 0; border-left: 1px solid var(--ink); }
.plot .brush { background: var(--advisory); opacity: .2; }
.readout { font-size: .84rem; color: var(--faint); margin: .1rem 0 0; min-height: 1.3em; font-variant-numeric: tabular-nums; }
details { font-size: .88rem; color: var(--faint); }
summary { cursor: pointer; }
details[open] > summary { margin-bottom: .3rem; }
.pair { display: grid; grid-template-columns: repeat(auto-fit, minmax(min(100%, 30rem), 1fr)); gap: .5rem 2rem; }

/* tables */
.scroll { overflow-x: auto; }
table { border-collapse: collapse; font-size: .88rem; margin: .5rem 0 1rem; font-variant-numeric: tabular-nums; }
caption { text-align: left; color: var(--faint); padding-bottom: .3rem; }
th, td { text-align: left; vertical-align: top; padding: .28rem 1rem .28rem 0; border-bottom: 1px solid var(--line); }
thead th { border-bottom: 1.5px solid var(--faint); white-space: nowrap; }
tbody th { font-weight: 600; min-width: 7.5rem; }
td { min-width: 4.5rem; }
td.numbers { white-space: nowrap; }
td.told { font-weight: 600; } td.told.worse { color: var(--caution); } td.told.better { color: var(--advisory); }
td.quiet { color: var(--faint); }
details.table { font-size: .92rem; margin: .6rem 0; } details.table table { color: var(--ink); }
code { font-family: ui-monospace, "DejaVu Sans Mono", monospace; font-size: .88em; }
footer { padding-bottom: 3rem; font-size: .86rem; color: var(--faint); }

@media (max-width: 60rem) { .finding, .folded .open { grid-template-columns: minmax(0, 1fr); } }
@media (max-width: 30rem) {
  header, main, footer { padding-left: .9rem; padding-right: .9rem; }
  .thread { padding-left: 1rem; } .finding::before { left: calc(-1rem - 7px); } .finding.note::before { left: calc(-1rem - 5px); }
  td, th { padding-right: .7rem; }
}
@media print {
  @page { margin: 14mm 13mm 16mm; }
  body { font-size: 9.5pt; line-height: 1.45; }
  table, .measures { font-size: 8pt; } th, td { padding: .15rem .6rem .15rem 0; } thead th { white-space: normal; }
  header, main, footer { max-width: none; padding: 0; }
  .bar, .list, .skip, .readout, .finding button, .hand, noscript, details:not(.table) { display: none; }
  details.table::details-content { content-visibility: visible; height: auto; }
  h2 { margin-top: 1.4rem; break-after: avoid; } h3, h4 { break-after: avoid; }
  .thread { border: 0; padding: 0; margin-top: .4rem; } .finding::before, .finding.note::before { display: none; }
  .finding { grid-template-columns: minmax(0, 10fr) minmax(0, 13fr); gap: .2rem 1.2rem; padding-bottom: 1rem; border-top: 1px solid var(--line); padding-top: .6rem; }
  figure, tr, .first > li, .keep, .finding.note, .dont, .finding .top, .said li, .said p { break-inside: avoid; } .finding .top { break-after: avoid; }
  .first > li { border: 1px solid var(--line); border-left: .5rem solid var(--level); }
  .pair { grid-template-columns: 1fr 1fr; gap: .2rem 1.2rem; } .scroll { overflow: visible; } .plot { overflow: visible; }
  a[href^="http"]::after { content: " (" attr(href) ")"; font-size: .85em; }
  * { print-color-adjust: exact; -webkit-print-color-adjust: exact; }
}
`;
