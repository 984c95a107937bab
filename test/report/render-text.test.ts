import { expect, test } from "vitest";
import { renderReportText, renderText } from "../../src/report/index.ts";
import { nastySurvey } from "./nasty-survey.ts";
import { surveyDiagnosis } from "./survey-diagnosis.ts";

const { diagnosis } = surveyDiagnosis({ duration: 120 });
const nasty = nastySurvey().diagnosis;

test("the summary fits a screen of 80 by 24 and leads with what to do", () => {
  const lines = renderText(diagnosis).split("\n");
  expect(lines.length).toBeLessThanOrEqual(24);
  for (const line of lines) expect([...line].length).toBeLessThanOrEqual(80);
  expect(lines[2]).toBe("Do not fly again until the causes of these 2 events are found and mended.");
});

test("the most severe findings come first, those of one level in order of time; notes are counted", () => {
  const text = renderText(diagnosis);
  const order = [
    "WARNING   Pitch oscillation",
    "WARNING   Motor 3 at its ceiling",
    "CAUTION",
    "ADVISORY",
    "note in the report",
  ];
  const places = order.map((part) => text.indexOf(part));
  expect(places).not.toContain(-1);
  expect([...places].sort((a, b) => a - b)).toEqual(places);
});

test("many findings still fit, and those that do not are counted", () => {
  const findings = Array.from({ length: 60 }, (_, index) => ({
    ...diagnosis.findings[0]!,
    id: `tracking-${index + 1}`,
    severity: "advisory" as const,
  }));
  const text = renderText({ ...diagnosis, findings });
  expect(text.split("\n").length).toBeLessThanOrEqual(24);
  const named = text.match(/^(WARNING|CAUTION|ADVISORY|NOTE) /gm)?.length ?? 0;
  expect(text).toContain(`and ${60 - named} more in the report`);
});

test("a diagnosis with notes alone says what that does not mean", () => {
  const notes = diagnosis.findings.map((finding) => ({ ...finding, severity: "note" as const }));
  expect(renderText({ ...diagnosis, findings: notes })).toMatch(/It does not mean that the aircraft is in order/);
});

test("a diagnosis without findings says what that does not mean", () => {
  const text = renderText({ ...diagnosis, findings: [] });
  expect(text).toMatch(/Nothing was found in what was examined/);
  expect(text).toMatch(/Not examined with this log: integrator windup/);
  expect(text).toMatch(/It does not mean that the aircraft is in order/);
});

test("colour is used only when it is asked for", () => {
  expect(renderText(diagnosis)).not.toContain("\u001b");
  expect(renderText(diagnosis, { colour: true })).toContain("\u001b[1;31m");
});

test("hostile names steer no terminal and break no line", () => {
  for (const text of [renderText(nasty), renderReportText(nasty)]) {
    // biome-ignore lint/suspicious/noControlCharactersInRegex: their absence is the point
    expect(text).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u200e\u200f\u202a-\u202e]/);
    for (const line of text.split("\n")) expect([...line].length).toBeLessThanOrEqual(80);
  }
});

test("nothing that is written calls a flight or an aircraft safe", () => {
  const { findings: _, ...rest } = diagnosis;
  for (const each of [diagnosis, { ...rest, findings: [] }]) {
    expect(renderText(each) + renderReportText(each)).not.toMatch(/\bsafe/i);
  }
});

test("the plain report holds every finding in order of time with its numbers, next steps and cautions", () => {
  const text = renderReportText(diagnosis);
  const places = diagnosis.findings.map((finding) => text.indexOf(`[${finding.severity}]`));
  expect(places).not.toContain(-1);
  expect(text).toContain("Frequency: 1.52 Hz (between 1.49 and 1.55 Hz)");
  expect(text).toContain("needs battery.voltage.");
});

test("where there is nothing to act on, the motor with the least room is told in words", () => {
  const room = (motor: number, above: number): (typeof diagnosis.findings)[number] => ({
    ...diagnosis.findings[0]!,
    id: `motor-headroom-${motor}`,
    kind: "motor-headroom",
    severity: "note",
    group: undefined,
    motor,
    summary: `Motor ${motor} had ${above} % left.`,
    measures: { above: { value: above / 100, unit: "1" }, below: { value: 0.6, unit: "1" } },
  });
  const text = renderText({ ...diagnosis, findings: [room(1, 40), room(2, 31), room(3, 45)] });
  expect(text).toContain("Motor 2 had 31 % left.");
  expect(text).not.toContain("Motor 1");
  expect(text).toContain("and 2 notes in the report");
});
