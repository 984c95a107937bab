import { expect, test } from "vitest";
import { findingName } from "../../src/charts/index.ts";

test("room to turn is named by the way it turns, so that both ways of an axis can be told apart", () => {
  const named = (direction: string, severity: "note" | "caution") =>
    findingName({ kind: "authority", axis: "pitch", direction, severity });
  expect(named("positive", "note")).toBe("Room to pitch up");
  expect(named("negative", "caution")).toBe("Hardly any room to pitch down");
});
