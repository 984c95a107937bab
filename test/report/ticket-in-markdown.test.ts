import { marked } from "marked";
import { expect, test } from "vitest";
import { ticketMarkdown } from "../../src/report/ticket-markdown.ts";
import { nastySurvey } from "./nasty-survey.ts";
import { surveyDiagnosis } from "./survey-diagnosis.ts";

const tagsOf = (html: string) => [...new Set([...html.matchAll(/<([a-z0-9]+)/g)].map(([, tag]) => tag!))].sort();
const OURS = [
  "blockquote",
  "code",
  "em",
  "h1",
  "h2",
  "hr",
  "img",
  "input",
  "li",
  "ol",
  "p",
  "strong",
  "table",
  "tbody",
  "td",
  "th",
  "thead",
  "tr",
  "ul",
];

test("the ticket renders as one heading, two tables, three pictures and boxes to tick", () => {
  const { diagnosis, charts } = surveyDiagnosis({ duration: 60 });
  const html = marked.parse(ticketMarkdown(diagnosis, charts)) as string;
  expect(html.match(/<h1/g)).toHaveLength(1);
  expect(html.match(/<table/g)).toHaveLength(2);
  expect([...html.matchAll(/<img src="([^"]+)"/g)].map(([, source]) => source)).toEqual([
    "charts/oscillation-pitch-1.png",
    "charts/motor-saturation-3-1.png",
    "charts/thrust-imbalance-1-above.png",
  ]);
  expect(html).toContain('type="checkbox"');
});

test("hostile names render as text: no tag, link or picture that is not ours", () => {
  const { diagnosis, charts } = nastySurvey();
  const html = marked.parse(ticketMarkdown(diagnosis, charts)) as string;
  expect(tagsOf(html).filter((tag) => !OURS.includes(tag))).toEqual([]);
  expect(html).not.toMatch(/<a |javascript:[^<]*"|\son\w+="/);
  for (const [, source] of html.matchAll(/<img src="([^"]+)"/g)) expect(source).toMatch(/^charts\/[a-z0-9-]+\.png$/);
});
