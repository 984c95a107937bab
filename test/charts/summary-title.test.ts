import { expect, test } from "vitest";
import { summaryTitle } from "../../src/charts/index.ts";

const clause = "The aircraft swung to and fro in roll for thirteen cycles and the motors followed it all the time";

test("a title ends where a sentence or a clause does", () => {
  expect(summaryTitle("It swung.")).toBe("It swung.");
  expect(summaryTitle(`${clause}; ${clause}. ${clause}.`)).toBe(`${clause}; ${clause}.`);
  expect(summaryTitle(`${clause}; ${clause} and on and on.`)).toBe(`${clause}.`);
});

test("what has no such place is cut, and says so", () => {
  expect(summaryTitle("a".repeat(300))).toBe(`${"a".repeat(200)}… (100 more)`);
});

test("a summary whose first sentence is too long ends where a clause does", () => {
  const summary = `Two causes together explain the load: ${"a lasting yaw moment, ".repeat(12)}and no more.`;
  const title = summaryTitle(summary);
  expect([...title].length).toBeLessThanOrEqual(200);
  expect(title).toMatch(/a lasting yaw moment\.$/);
});
