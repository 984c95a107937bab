import type { Chart } from "../../charts/index.ts";
import type { Diagnosis } from "../../findings/diagnosis.ts";
import { capital, measureName, measureWords, percentWords, plainText } from "../../words/index.ts";

import { type Html, html } from "../html.ts";

import { type RoomRow, roomLeft } from "../room-left.ts";
import { type StepRow, stepAuthority } from "../step-authority.ts";
import { figure } from "./figure.ts";

/** How much room was left, motor by motor and axis by axis. */
export function sectionRoom(diagnosis: Diagnosis, motorCharts: readonly Chart[], axisCharts: readonly Chart[]): Html {
  const { motors, turns, loops } = roomLeft(diagnosis);
  if (motors.length + turns.length + loops.length + motorCharts.length + axisCharts.length === 0) return html``;
  return html`<section aria-labelledby="room"><h2 id="room">Room left, motor by motor and axis by axis</h2>
<p>A motor at its ceiling or its floor cannot help to hold the aircraft level. Room is given as a share of the command range.</p>
${table("Motors", "Motor", motors)}
<div class="pair">${motorCharts.map((chart) => figure(chart))}</div>
${table("Room to turn, of what balanced hover has", "Turn", turns)}
${stepTable(stepAuthority(diagnosis))}
${table("How closely each loop followed", "Loop", loops)}
<div class="pair">${axisCharts.map((chart) => figure(chart))}</div></section>`;
}

function table(caption: string, of: string, rows: readonly RoomRow[]): Html {
  if (rows.length === 0) return html``;
  const columns = [...new Set(rows.flatMap(({ measures }) => [...measures.keys()]))];
  return html`<div class="scroll" tabindex="0" role="region" aria-label="${caption}"><table><caption>${caption}</caption>
<thead><tr><th scope="col">${of}</th>${columns.map((key) => html`<th scope="col">${capital(measureName(key))}</th>`)}</tr></thead>
<tbody>${rows.map(
    ({ subject, measures }) =>
      html`<tr><th scope="row">${capital(plainText(subject, 60))}</th>${columns.map((key) => {
        const estimate = measures.get(key);
        return html`<td>${estimate === undefined ? "–" : measureWords(key, estimate)}</td>`;
      })}</tr>`,
  )}</tbody></table></div>`;
}

/** Least and middle share per speed step and way, with the motor that stood in the way at the least. */
function stepTable(rows: readonly StepRow[]): Html {
  if (rows.length === 0) return html``;
  const caption = "Room to turn in hover and at each speed step: least (middle), and the motor in the way at the least";
  const ways = [...new Set(rows.flatMap((row) => [...row.ways.keys()]))];
  return html`<div class="scroll" tabindex="0" role="region" aria-label="${caption}"><table><caption>${caption}</caption>
<thead><tr><th scope="col">Step</th>${ways.map((way) => html`<th scope="col">${capital(plainText(way, 40))}</th>`)}</tr></thead>
<tbody>${rows.map(
    (row) =>
      html`<tr><th scope="row">${capital(row.subject)}</th>${ways.map((way) => {
        const left = row.ways.get(way);
        return html`<td>${left === undefined ? "–" : `${percentWords(left.least)} (${percentWords(left.median)}), motor ${left.motor}`}</td>`;
      })}</tr>`,
  )}</tbody></table></div>`;
}
