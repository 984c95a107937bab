import { expect, test } from "vitest";
import { findingName } from "../../src/charts/index.ts";

test("room to turn is named by the way it turns, so that both ways of an axis can be told apart", () => {
  const named = (direction: string, severity: "note" | "caution") =>
    findingName({ kind: "authority", axis: "pitch", direction, severity });
  expect(named("positive", "note")).toBe("Room to pitch up");
  expect(named("negative", "caution")).toBe("Hardly any room to pitch down");
});

test("a load with two causes is not named as if one motor explained it", () => {
  const named = (motor?: number) =>
    findingName({ kind: "thrust-imbalance", pattern: "single-motor", besides: "spin-pair", ...(motor && { motor }) });
  expect(named(2)).toBe("Motor 2 weak, with a second cause");
  expect(named()).toBe("Load uneven, two causes");
});

test("a loss that a lifted load would explain as well is named for both", () => {
  const named = (alternatives?: string[]) =>
    findingName({ kind: "motor-response", motor: 2, pattern: "sudden-loss", ...(alternatives && { alternatives }) });
  expect(named(["lifted-load"])).toBe("Motor 2 lost thrust, or lifted a load");
  expect(named()).toBe("Motor 2 does not follow");
});
