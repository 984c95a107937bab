import { createHash } from "node:crypto";
import { beforeAll, expect, test } from "vitest";
import { renderPage } from "../../src/report/index.ts";
import { nastySurvey } from "./nasty-survey.ts";
import { surveyDiagnosis } from "./survey-diagnosis.ts";

const survey = surveyDiagnosis({ duration: 120 });
let page: string;
beforeAll(() => {
  page = renderPage(survey.diagnosis, survey.charts);
});

/** What a reader reads: no scripts, no style. */
const wordsOf = (text: string) => text.replace(/<script[\s\S]*?<\/script>|<style>[\s\S]*?<\/style>/g, "");
const scriptsOf = (text: string) => [...text.matchAll(/<script(?: type="([^"]+)" id="charts")?>([\s\S]*?)<\/script>/g)];

test("the policy allows nothing but the page's own scripts and style, each by its checksum", () => {
  const policy = /http-equiv="Content-Security-Policy" content="([^"]+)"/.exec(page)![1]!.replaceAll("&#39;", "'");
  expect(policy).toMatch(/^default-src 'none'; /);
  expect(policy).not.toMatch(/unsafe|\*|https?:/);
  const running = scriptsOf(page).filter(([, type]) => type === undefined);
  expect(running).toHaveLength(4);
  for (const [, , script] of running) {
    expect(policy).toContain(`'sha256-${createHash("sha256").update(script!).digest("base64")}'`);
  }
});

test("the page loads nothing: no source, no style sheet, no import, no font", () => {
  const markup = wordsOf(page);
  expect(markup).not.toMatch(/\ssrc=|<link|<iframe|<object|<embed|<base|srcset/);
  expect(/<style>([\s\S]*?)<\/style>/.exec(page)![1]).not.toMatch(/url\(|@import/);
});

test("findings stand in order of time, each with a heading of its own and its chart", () => {
  const told = survey.diagnosis.findings.filter(({ severity }) => severity !== "note");
  const places = told.map(({ id }) => page.indexOf(`<li class="finding`, page.indexOf(`id="${id}"`) - 60));
  expect([...places].sort((a, b) => a - b)).toEqual(places);
  for (const { charts } of survey.diagnosis.findings) {
    for (const id of charts) expect(page).toContain(`id="chart-${id}"`);
  }
});

test("what asks for nothing stands after what does, under a heading of its own", () => {
  const [first, ...rest] = survey.diagnosis.findings;
  const mixed = renderPage({ ...survey.diagnosis, findings: [{ ...first!, severity: "note" }, ...rest] }, []);
  const record = mixed.indexOf("For the record: nothing to act on</h2>");
  expect(record).toBeGreaterThan(mixed.indexOf("What happened, in order of time</h2>"));
  expect(mixed.indexOf(`id="${first!.id}"`)).toBeGreaterThan(record);
  expect(mixed.indexOf(`id="${rest[0]!.id}"`)).toBeLessThan(record);
});

test("every chart stands on the page once, with its text alternative", () => {
  for (const { id } of survey.charts) expect(page.split(`id="chart-${id}"`)).toHaveLength(2);
  expect(page.match(/<figure/g)).toHaveLength(survey.charts.length);
});

test("what was not examined is said at the top and explained below", () => {
  expect(page).toMatch(/3 subjects could not be examined with this log: integrator windup, battery, motor response\./);
  expect(page).toContain("rate.roll.integrator, rate.pitch.integrator");
});

test("without findings the page says so and what that does not mean", () => {
  const empty = renderPage({ ...survey.diagnosis, findings: [] }, []);
  expect(empty).toContain("Nothing was found in what was examined.");
  expect(wordsOf(empty)).toContain("It does not mean that the aircraft is in order.");
});

test("with notes alone the page says that nothing asks for action and what that does not mean", () => {
  const notes = survey.diagnosis.findings.map((finding) => ({ ...finding, severity: "note" as const }));
  const quiet = wordsOf(renderPage({ ...survey.diagnosis, findings: notes }, []));
  expect(quiet).toContain("Nothing to act on was found in what was examined.");
  expect(quiet).toContain("It does not mean that the aircraft is in order.");
});

test("hostile names bring no markup into the page", () => {
  const { diagnosis, charts } = nastySurvey();
  const hostile = renderPage(diagnosis, charts);
  expect(scriptsOf(hostile)).toHaveLength(5);
  expect(hostile.match(/<style>/g)).toHaveLength(1);
  const markup = wordsOf(hostile);
  expect(markup).not.toMatch(/<(script|img|style)\b/i);
  expect(markup.replace(/"[^"]*"/g, '""').match(/<[a-z][^>]*\son\w+=/gi)).toBeNull();
  expect(markup).not.toMatch(/href="(?!#|https:\/\/)/);
});

test("no page calls a flight or an aircraft safe", () => {
  expect(wordsOf(page)).not.toMatch(/\bsafe/i);
});
