import { findingName } from "../../charts/index.ts";
import { CAUTIONS } from "../../findings/cautions.ts";
import type { Diagnosis } from "../../findings/diagnosis.ts";
import type { AlertLevel, Finding } from "../../findings/finding.ts";
import { countWords, durationWords, plainText, secondsWords } from "../../words/index.ts";

import { eventGist, eventsOf, type FlightEvent } from "../events.ts";
import { type Html, html } from "../html.ts";
import { nearestNotes } from "../nearest-notes.ts";
import { asksForNothing, notExaminedLines, whatFirst } from "../what-first.ts";

/** The top of the page: what was flown, and what to do first. */
export function sectionFirst(diagnosis: Diagnosis): Html {
  const { log, run } = diagnosis;
  const missing = notExaminedLines(diagnosis);
  return html`<header>
<h1>${aircraftName(diagnosis)}: what the flight log says</h1>
<p class="facts"><bdi>${plainText(fileName(log.file), 120)}</bdi> · ${durationWords(log.duration)} of log${log.start !== null && html` · starts ${plainText(log.start, 40)}`} · examined ${run.at.slice(0, 16).replace("T", " ")} UTC</p>
<ol class="first" aria-label="What to do first">
${whatFirst(diagnosis).map(
  ({
    level,
    headline,
    events,
  }) => html`<li class="${level} ${severe(level) ? "" : "small"}"><span class="badge ${level}">${level}</span>
<p class="headline">${headline}</p>
${level === "note" ? notes(events.reduce((sum, { others }) => sum + 1 + others.length, 0)) : html`<ul class="${severe(level) ? "words" : ""}">${events.map(severe(level) ? eventInWords : eventInBrief)}</ul>`}${asksForNothing(diagnosis) && html`${nearest(diagnosis.findings)}<p>${CAUTIONS.absence}</p>`}</li>`,
)}
${missing.length > 0 && html`<li class="note small"><span class="badge note">not examined</span><p>${countWords(missing.length, "subject")} could not be examined with this log: ${missing.map(({ subject }) => plainText(subject, 40)).join(", ")}. <a href="#not-examined">What it would take</a></p></li>`}
${log.questions.length > 0 && html`<li class="caution small"><span class="badge caution">to confirm</span><p>${countWords(log.questions.length, "question")} about the log should be answered before numbers that depend on it are trusted. <a href="#log">The questions</a></p></li>`}
</ol>
</header>`;
}

/** What happened and, where something has to be done before the next flight, what to do first. */
function eventInWords(event: FlightEvent): Html {
  const { severity, next } = event.lead;
  return html`<li>${eventLinks(event)}<p>${plainText(eventGist(event), 400)}</p>
${severe(severity) && next.length > 0 && html`<p><strong>First:</strong> ${plainText(next[0]!, 300)}</p>`}</li>`;
}

function eventInBrief(event: FlightEvent): Html {
  return html`<li>${eventLinks(event)}</li>`;
}

function eventLinks({ lead, others }: FlightEvent): Html {
  const link = (finding: Finding) => html`<a href="#${finding.id}">${findingName(finding)}</a>`;
  return html`${link(lead)} <span class="faint">at ${secondsWords(lead.start)}</span>${others.length > 0 && html`<span class="faint">, with it</span>`}${others.map((finding, at) => html`${at > 0 && ","} ${link(finding)}`)}`;
}

/** Notes are many and much alike: one line leads to them. */
function notes(count: number): Html {
  if (count === 0) return html``;
  return html`<p>${countWords(count, "note")}, such as the room that was left and how closely the aircraft followed: <a href="#for-the-record">for the record</a></p>`;
}

/** Where there is nothing to act on, what came nearest to it. */
function nearest(notes: readonly Finding[]): Html {
  if (notes.length === 0) return html``;
  return html`<ul class="words">${eventsOf(nearestNotes(notes)).map(eventInWords)}</ul>`;
}

/** Levels that stop an aircraft on the ground are set large; the others in one line. */
function severe(level: AlertLevel): boolean {
  return level === "warning" || level === "caution";
}

/** The aircraft's name from its file, or a plain word for it. */
export function aircraftName({ aircraft }: Pick<Diagnosis, "aircraft">): string {
  return typeof aircraft.name === "string" && aircraft.name.trim() !== "" ? plainText(aircraft.name, 80) : "Aircraft";
}

/** The last part of a path, whichever way its slashes lean. */
export function fileName(path: string): string {
  return (
    path
      .split(/[\\/]/)
      .filter((part) => part !== "")
      .at(-1) ?? path
  );
}
