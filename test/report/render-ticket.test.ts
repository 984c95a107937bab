import { strFromU8, unzipSync } from "fflate";
import { beforeAll, expect, test } from "vitest";
import { stretchLayer, timeChart } from "../../src/charts/time-chart.ts";
import { renderPng, renderSvg, renderTicket, safeFileName, type Ticket } from "../../src/report/index.ts";
import { ticketMarkdown } from "../../src/report/ticket-markdown.ts";
import { NASTY } from "./nasty.ts";
import { nastySurvey } from "./nasty-survey.ts";
import { surveyDiagnosis } from "./survey-diagnosis.ts";

const survey = surveyDiagnosis({ duration: 60 });
const some = survey.charts.slice(0, 3);
let ticket: Ticket;
beforeAll(async () => {
  ticket = await renderTicket(survey.diagnosis, some);
});

test("the ticket holds the text, the diagnosis, and each chart as PNG, SVG and specification", () => {
  expect([...ticket.files.keys()]).toEqual([
    "ticket.md",
    "diagnosis.json",
    ...some.flatMap(({ id }) => [`charts/${id}.png`, `charts/${id}.svg`, `charts/${id}.vl.json`]),
  ]);
});

test("the zip holds the same files under one folder", () => {
  const unzipped = unzipSync(ticket.zip);
  expect(Object.keys(unzipped)).toEqual([...ticket.files.keys()].map((path) => `ticket/${path}`));
  expect(strFromU8(unzipped["ticket/ticket.md"]!)).toBe(ticket.files.get("ticket.md"));
});

test("pictures and zip are the same bytes on two runs", async () => {
  const again = await renderTicket(survey.diagnosis, some);
  expect(Buffer.from(again.zip).equals(Buffer.from(ticket.zip))).toBe(true);
});

test("a PNG is twice the size of its SVG, and its letters come from the font that ships with it", async () => {
  const chart = some[0]!;
  const svg = await renderSvg(chart);
  const png = Buffer.from(await renderPng(chart, 2));
  const width = Number(/width="(\d+)/.exec(svg)![1]);
  expect(png.readUInt32BE(16)).toBe(2 * width);
  expect(svg).toContain("DejaVu Sans");
});

test("bands far outside a chart's window are not drawn: pictures of them would fail", async () => {
  const stretch = (time: number) => ({ time, until: time + 0.02, level: "caution" });
  const chart = timeChart({
    id: "near",
    title: "One second of many",
    description: "",
    height: 100,
    span: { start: 24, end: 25 },
    datasets: { marked: [3, 24.5, 24.9, 300].map(stretch) },
    layers: [stretchLayer("marked")],
  });
  const bands = [...(await renderSvg(chart)).matchAll(/d="M([-\d.]+),0h[\d.]+v100[^>]* opacity="0.16"/g)].map(([, x]) =>
    Math.round(Number(x)),
  );
  expect(bands).toEqual([360, 648]);
});

test("the ticket is about a screen long and leads with what to do", () => {
  const text = ticket.files.get("ticket.md") as string;
  expect(text.split("\n").length).toBeLessThan(70);
  expect(text).toMatch(/^# Heron four: Do not fly again until the causes of these 2 events are found and mended\.\n/);
  expect(text).toContain(survey.diagnosis.log.sha256);
});

test("hostile names add no structure to the ticket", async () => {
  const { diagnosis } = nastySurvey();
  const text = (await renderTicket(diagnosis, [])).files.get("ticket.md") as string;
  expect(text.match(/^# /gm)).toHaveLength(1);
  for (const part of ["<", "](javascript", "](https", "://", "\u001b", "\u202e"]) expect(text).not.toContain(part);
  for (const line of text.split("\n").filter((each) => each.startsWith("| "))) {
    expect(line.split("|").length - 2).toBeLessThanOrEqual(3);
  }
});

test.each(NASTY.map((text) => [text.slice(0, 30), text]))("safeFileName(%j) stays in its folder", (_, text) => {
  expect(safeFileName(text)).toMatch(/^[a-z0-9][a-z0-9-]{0,84}$/);
});

test("safeFileName avoids names that mean a device", () => {
  expect(["con", "LPT1", "", "..", "motor-3"].map(safeFileName)).toEqual([
    "con-file",
    "lpt1-file",
    "unnamed",
    "unnamed",
    "motor-3",
  ]);
});

test("the ticket tells each finding to act on whole, and counts the notes", () => {
  const [first, ...rest] = survey.diagnosis.findings;
  const long = `${"It swung to and fro. ".repeat(25)}End.`;
  const findings = [
    { ...first!, severity: "warning" as const, summary: long },
    ...rest.map((one) => ({ ...one, severity: "note" as const })),
  ];
  const text = ticketMarkdown({ ...survey.diagnosis, findings }, []);
  expect(text).toContain("End. |");
  expect(text).toContain(`| note | | ${rest.length} notes, nothing to act on: see the report. |`);
  expect(text.match(/^\| (warning|caution|advisory|note) \|/gm)).toHaveLength(2);
});
