import { expect, test } from "vitest";
import { escapeMarkdown } from "../../src/report/escape-markdown.ts";
import { NASTY } from "./nasty.ts";

test.each(NASTY.map((text) => [text.slice(0, 40), text]))("%j stays text in Markdown", (_, text) => {
  const escaped = escapeMarkdown(text);
  for (const sign of [..."\\`*_{}[]!|<>\n\r\u001b\u202e"]) expect(escaped).not.toContain(sign);
  expect(escaped).not.toMatch(/:\/\/|www\./);
  expect(escaped).not.toMatch(/^(#|-|\d+[.)]\s)/);
});

test("ordinary sentences stay readable", () => {
  expect(escapeMarkdown("Pitch swung at 1.52 Hz (between 1.49 and 1.55 Hz), by 24 deg/s.")).toBe(
    "Pitch swung at 1.52 Hz (between 1.49 and 1.55 Hz), by 24 deg/s.",
  );
});
