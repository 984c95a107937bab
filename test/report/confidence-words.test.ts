import { expect, test } from "vitest";
import { confidenceWords } from "../../src/report/confidence-words.ts";

test("confidence is never said to be complete", () => {
  expect(confidenceWords(1)).toMatch(/about 99 in 100/);
  expect(confidenceWords(0.3)).toMatch(/^a hint only/);
});
