import { expect, test } from "vitest";
import { statementsOf } from "../../../src/findings/comparison/statements.ts";

type Told = Parameters<typeof statementsOf>[0];

const row = {
  quantity: "error-rms",
  condition: "all-speeds",
  kind: "compared",
  name: "Rate error (rms)",
  unit: "rad/s",
  scale: "ratio",
  verdict: "no-difference",
  difference: { value: 0.1, low: -0.2, high: 0.4, unit: "1" },
};
const tables = [{ id: "pitch", rows: [row] }];
const swing = { kind: "oscillation", axis: "pitch", severity: "warning", start: 244.1 };
const told = (before: object[], after: object[]) =>
  ({
    tables,
    conditions: [],
    nextStep: null,
    mission: null,
    before: { findings: before },
    after: { findings: after },
  }) as unknown as Told;
const pitchOf = (one: Told) => statementsOf(one).find(({ topic }) => topic === "pitch")!;

test("an oscillation that only the flight after has is told before averages over legs, at its own level", () => {
  const { text, level } = pitchOf(told([], [swing]));
  expect(text).toMatch(
    /^Pitch oscillated in the flight after only \(warning, at 244\.1 s; see its report\)\. Averaged over legs, pitch shows no difference/,
  );
  expect(level).toBe("warning");
});

test("with an oscillation in both or in neither, averages speak alone", () => {
  for (const findings of [[], [swing]])
    expect(pitchOf(told(findings, findings)).text).toMatch(/^Pitch shows no difference/);
});
