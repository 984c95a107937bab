import { describe, expect, test } from "vitest";
import { oscillation, upset } from "../../../src/detect/index.ts";
import { drawScenario } from "../../studies/oscillation-scenarios.ts";
import { simulatedFlight } from "../simulated-flight.ts";

/** A fixed part of the study: what drove it is known because it was put in. */
describe("simulated flights with a known fault", () => {
  test.each([
    ["delay", 20, "controller"],
    ["delay", 24, "controller"],
    ["loop", 22, "controller"],
    ["outside", 24, "external"],
    ["outside", 25, "external"],
    ["load", 20, "coupled"],
  ] as const)("%s, seed %d: driven by %s, at the right time and frequency", (kind, seed, driver) => {
    const { flight, truth } = simulatedFlight(drawScenario(kind, seed));
    const fault = truth.faults[0]!;
    const found = oscillation.detect(flight).find(({ axis }) => axis === fault.axis)!;
    expect(found.driver).toBe(driver);
    expect(Math.abs(found.measures.frequency!.value / fault.frequency! - 1)).toBeLessThan(0.02);
    expect(Math.abs(found.start - fault.visible!)).toBeLessThan(Math.max(1, 3 / fault.frequency!));
  });

  test("a sine on the stick is commanded", () => {
    const { flight } = simulatedFlight(drawScenario("asked", 20));
    expect(oscillation.detect(flight)[0]!.driver).toBe("commanded");
  });

  test("healthy flights in gusts are silent", () => {
    for (const seed of [1, 2, 3]) {
      const { flight } = simulatedFlight(drawScenario("healthy", seed));
      expect(oscillation.detect(flight)).toEqual([]);
      expect(upset.detect(flight)).toEqual([]);
    }
  });
});
