import type { Chart } from "../../charts/index.ts";
import {
  type Comparison,
  type ComparisonRow,
  type ComparisonTable,
  changeWords,
  detectableWords,
  differenceWords,
  levelWords,
  rangeWords,
} from "../../findings/comparison/index.ts";
import { capital, durationWords, numberWords } from "../../words/index.ts";
import { type Html, html } from "../html.ts";
import { figure } from "../page/figure.ts";
import { stepLines } from "./steps-table.ts";

/** The table of speed steps, which leads the page, and power against speed. */
export function sectionSteps(comparison: Comparison, charts: readonly Chart[]): Html {
  const lines = stepLines(comparison);
  return html`<section aria-labelledby="steps"><h2 id="steps">Speed by speed</h2>
<p>Each line is one speed that both flights flew steadily. Brackets hold 95 % intervals. "Better" and "worse" stand only where the difference is more than chance among so many comparisons; "perhaps" where it may be chance. "No difference shown" does not mean that there is none: the last column of each full table says from which size on one would have been seen. Points are percent of a whole, of the command range or of the control in hover.</p>
<div class="scroll" tabindex="0" role="region" aria-label="Table of speeds"><table>
<thead><tr><th scope="col">Speed</th><th scope="col">Legs</th><th scope="col">${powerHeading(comparison)}</th><th scope="col">Change</th><th scope="col">Wh/km</th><th scope="col">Roll</th><th scope="col">Pitch</th><th scope="col">Yaw</th><th scope="col">Room of the motors</th></tr></thead>
<tbody>${lines.map(
    ({ name, legs, power, powerChange, energy, axes, room }) =>
      html`<tr><th scope="row">${name}</th><td>${legs}</td><td class="numbers">${power}</td><td>${powerChange}</td><td class="numbers">${energy}</td>${axes.map(({ words, verdict }) => html`<td class="${tone(verdict)}">${words}</td>`)}<td class="${tone(room.verdict)}">${room.words}</td></tr>`,
  )}</tbody></table></div>
${missionLine(comparison)}
${charts.map((chart) => figure(chart))}</section>`;
}

function powerHeading({ tables }: Comparison): string {
  const key = tables.find(({ id }) => id === "power")?.rows[0]?.quantity;
  return key === undefined || key === "power" ? "Power" : "In place of power";
}

function missionLine({ mission }: Comparison): Html {
  if (mission === null) return html``;
  const { before, after, difference } = mission;
  const energy = ({ power, seconds }: typeof before) => `${numberWords((power * seconds) / 3600, 3)} Wh`;
  const change =
    difference === null
      ? "no interval, because the legs do not match"
      : differenceWords({ quantity: "power", unit: "W", scale: "ratio", difference });
  return html`<p>From the start of the first leg to the end of the last, turns in: ${numberWords(before.power, 4)} W over ${durationWords(before.seconds)} before (${energy(before)}), ${numberWords(after.power, 4)} W over ${durationWords(after.seconds)} after (${energy(after)}): ${change}.</p>`;
}

/** How steady each axis was. */
export function sectionSteadiness(comparison: Comparison, charts: readonly Chart[]): Html {
  const tables = comparison.tables.filter(({ id }) => ["roll", "pitch", "yaw"].includes(id));
  if (tables.length === 0) return html``;
  return html`<section aria-labelledby="steadiness"><h2 id="steadiness">How steady each axis was</h2>
<p>Errors and swings grow with the gusts of the day: they speak of the change only if the air was alike on both flights.</p>
<div class="pair">${charts.map((chart) => figure(chart))}</div>
${tables.map((table) => folded(table, comparison))}</section>`;
}

/** How much room the motors had, and what each of them did. */
export function sectionMotors(comparison: Comparison, charts: readonly Chart[]): Html {
  const tables = comparison.tables.filter(({ id }) => ["room", "motors"].includes(id));
  if (tables.length === 0) return html``;
  return html`<section aria-labelledby="motors"><h2 id="motors">Room left, and the motors</h2>
<p>Room is the part of the command range that the motor with the least of it left unused on a leg, but for the highest and the lowest hundredth of the time. Room to turn is the moment still available about an axis, of what balanced hover has.</p>
<div class="pair">${charts.map((chart) => figure(chart))}</div>
${tables.map((table) => folded(table, comparison))}</section>`;
}

/** Power in full: the numbers behind the leading table. */
export function sectionPower(comparison: Comparison): Html {
  const table = comparison.tables.find(({ id }) => id === "power");
  return table === undefined ? html`` : folded(table, comparison);
}

/** A table that opens: how many of its rows say what is told before anybody looks. */
function folded(table: ComparisonTable, comparison: Comparison): Html {
  const name = (id: string) =>
    id === "all-speeds" ? "all speeds" : (comparison.conditions.find((one) => one.id === id)?.name ?? id);
  return html`<details class="table"><summary>${table.title}, every number: ${countsOf(table.rows)}</summary>
<div class="scroll" tabindex="0" role="region" aria-label="${table.title}"><table>
<thead><tr><th scope="col">What</th><th scope="col">Where</th><th scope="col">Before</th><th scope="col">After</th><th scope="col">Difference</th><th scope="col">95 % interval</th><th scope="col">In a word</th><th scope="col">Seen from</th></tr></thead>
<tbody>${table.rows.map((row, index) => line(row, name, table.rows[index - 1]))}</tbody></table></div></details>`;
}

function line(row: ComparisonRow, name: (id: string) => string, previous: ComparisonRow | undefined): Html {
  const level = (side: "before" | "after") => (row[side] === undefined ? "–" : levelWords(row, row[side].value));
  const repeats = previous?.name === row.name;
  return html`<tr><th scope="row">${repeats ? html`<span class="faint">${row.name}</span>` : row.name}</th><td>${capital(name(row.condition))}</td><td class="numbers">${level("before")}</td><td class="numbers">${level("after")}</td><td class="numbers">${row.difference === undefined ? "–" : changeWords(row)}</td><td>${row.difference === undefined ? "–" : rangeWords(row)}</td><td class="${tone(row.verdict)}">${row.word}</td><td class="numbers">${row.detectable === undefined ? "–" : detectableWords(row)}</td></tr>`;
}

function countsOf(rows: readonly ComparisonRow[]): string {
  const count = (wanted: (verdict: string) => boolean) => rows.filter(({ verdict }) => wanted(verdict)).length;
  const parts = [
    [count((v) => v === "worse"), "worse"],
    [count((v) => v === "better"), "better"],
    [count((v) => v === "changed"), "changed"],
    [count((v) => v.startsWith("perhaps")), "perhaps"],
    [count((v) => v === "no-difference"), "no difference shown"],
    [count((v) => v === "not-enough-data"), "not enough data"],
  ] as const;
  return parts
    .filter(([n]) => n > 0)
    .map(([n, word]) => `${n} ${word}`)
    .join(", ");
}

/** Class of a cell by its verdict: a word always stands in it too. */
function tone(verdict: string): string {
  return verdict === "worse" || verdict === "better" || verdict === "changed" ? `told ${verdict}` : "quiet";
}
