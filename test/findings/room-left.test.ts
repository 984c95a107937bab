import { describe, expect, test } from "vitest";
import { chartsFor } from "../../src/charts/index.ts";
import { DETECTORS, type Evidence } from "../../src/detect/index.ts";
import { findingSchema, makeFindings } from "../../src/findings/index.ts";
import { motorNames, phaseName } from "../../src/flight-words.ts";
import { compileChart } from "../../src/report/compile-chart.ts";
import { BUILT_IN_AIRCRAFT } from "../../src/simulate/index.ts";
import { simulatedFlight } from "../detect/simulated-flight.ts";

const { flight } = simulatedFlight({
  name: "test",
  seed: 3,
  aircraft: BUILT_IN_AIRCRAFT["small-quad"]!,
  mission: [
    { do: "aloft", height: 60 },
    { do: "hover", seconds: 24 },
  ],
  faults: [
    { kind: "wind-up", axis: "pitch", start: 8, end: 9.5, share: 1.15 },
    { kind: "weak-motor", motor: 2, start: 17, loss: 0.3 },
  ],
});
const evidence = DETECTORS.flatMap((detector): Evidence[] => detector.detect(flight));
const findings = makeFindings({ evidence, motorName: motorNames(flight), phaseName });
const ofKind = (kind: string) => findings.filter((finding) => finding.kind === kind);

describe("a flight in which the motors ran out, an integrator wound up and a motor lost thrust", () => {
  test("says each of it at its level, in the contract's fields", () => {
    for (const finding of findings) expect(() => findingSchema.parse(finding)).not.toThrow();
    const [windup] = ofKind("integrator-windup");
    expect(windup).toMatchObject({ axis: "pitch", loop: "rate", direction: "negative", evidence: "logged" });
    expect(["caution", "warning"]).toContain(windup!.severity);
    expect(windup!.measures).toHaveProperty("overshoot");
    expect(ofKind("authority").some(({ severity }) => severity === "warning" || severity === "caution")).toBe(true);
    const [loss] = ofKind("motor-response");
    expect(loss).toMatchObject({ motor: 2, severity: "warning", pattern: "sudden-loss" });
    expect(loss!.summary).toMatch(/^Motor 2 \(front right\) suddenly gave less thrust at 17\.\d s/);
  });

  test("warns that gains give no authority back wherever control ran out", () => {
    for (const finding of [...ofKind("authority"), ...ofKind("integrator-windup")]) {
      if (finding.severity === "note") continue;
      expect(finding.cautions.join(" ")).toMatch(/gains do not give a motor more thrust/i);
    }
  });

  test("draws authority of each axis and of each finding, and the integrator with its flags", () => {
    const { charts, byFinding } = chartsFor(flight, findings);
    const ids = charts.map(({ id }) => id);
    for (const axis of ["roll", "pitch", "yaw"]) expect(ids).toContain(`authority-${axis}`);
    const [windup] = ofKind("integrator-windup");
    expect(byFinding.get(windup!.id)).toContain(`${windup!.id}-integrator`);
    for (const chart of charts.filter(({ id }) => /authority|windup|headroom/.test(id))) {
      expect(() => compileChart(chart, chart.spec)).not.toThrow();
    }
  });
});
