import { chartsForComparison } from "../../src/charts/index.ts";
import { compare } from "../../src/compare/index.ts";
import type { FlightsCompared } from "../../src/compare-flights.ts";
import { type Comparison, makeComparison } from "../../src/findings/comparison/index.ts";
import { plainText } from "../../src/words/index.ts";
import { flyMission, LONGER_BOOM } from "../compare/simulated-pair.ts";
import { ALL_NASTY } from "./nasty.ts";

/** Two short simulated missions compared; with `nasty`, every text that comes from files is hostile. */
export function surveyComparison({ nasty = false } = {}): FlightsCompared {
  const speeds = [5, 8, 11];
  const before = flyMission({ seed: 1, speeds, seconds: 8 });
  const after = flyMission({ seed: 2, speeds, seconds: 8, wind: { speed: 3, from: 60 }, faults: [LONGER_BOOM] });
  const made = compare(before, after);
  if (made.kind !== "compared") throw new Error("refused");
  const text = (plain: string) => (nasty ? ALL_NASTY : plain);
  const side = (name: string): Omit<Comparison["before"], "air"> => ({
    log: { file: text(`${name}.csv`), sha256: "00".repeat(32), rows: 10, duration: 100, start: text("Monday") },
    channels: null,
    aircraft: null,
    notes: { [text("boom")]: text(name) },
    findings:
      name === "after"
        ? [
            {
              id: "oscillation-pitch-1",
              kind: "oscillation",
              axis: "pitch",
              severity: "warning",
              start: 4,
              summary: plainText(text("It grew."), 300),
            },
          ]
        : [],
  });
  const aircraft = { ...after.aircraft, name: text("Survey quadrotor") };
  const comparison = makeComparison(made, {
    run: { version: "0.0.0", at: "2026-11-25T00:00:00.000Z", options: {}, seed: 1 },
    aircraft,
    before: side("before"),
    after: side("after"),
    motorName: (motor) => plainText(text(`motor ${motor} (rear right)`), 40),
  });
  return { comparison, charts: chartsForComparison(comparison) };
}
