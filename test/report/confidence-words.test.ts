import { expect, test } from "vitest";
import { confidenceWords } from "../../src/report/confidence-words.ts";

test("confidence is never said to be complete", () => {
  expect(confidenceWords({ confidence: 1, kind: "oscillation" })).toMatch(/about 99 in 100/);
  expect(confidenceWords({ confidence: 0.3, kind: "oscillation" })).toMatch(/^a hint only/);
});

test("confidence says of what it is: of the cause only where the finding names what explains it", () => {
  expect(confidenceWords({ confidence: 0.99, kind: "motor-headroom" })).toMatch(/this is so, whatever the cause:/);
  expect(confidenceWords({ confidence: 0.9, kind: "thrust-imbalance" })).toMatch(
    /^fairly sure that this is the cause:/,
  );
});

test("a loss that a lifted load would explain as well is weighed against the load", () => {
  expect(confidenceWords({ confidence: 0.43, kind: "motor-response", alternatives: ["lifted-load"] })).toBe(
    "a hint only that thrust was lost and no load lifted: about 43 in 100 such findings are true",
  );
});
