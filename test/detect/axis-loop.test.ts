import { expect, test } from "vitest";
import { axisLoops } from "../../src/detect/axis-loop.ts";
import { rebuildIntegrator } from "../../src/detect/rebuild-integrator.ts";
import { BUILT_IN_AIRCRAFT } from "../../src/simulate/index.ts";
import { simulatedFlight } from "./simulated-flight.ts";

const AXES = ["roll", "pitch", "yaw"] as const;

/** Gains of the rate loops, fitted to the moments of the motors. */
function gainsAt(rate: number) {
  const { flight } = simulatedFlight({
    name: "test",
    seed: 3,
    aircraft: BUILT_IN_AIRCRAFT["small-quad"]!,
    mission: [
      { do: "aloft", height: 40 },
      { do: "hover", seconds: 60 },
    ],
    log: { rate, omit: AXES.flatMap((axis) => [`rate.${axis}.integrator`, `rate.${axis}.output`]) },
  });
  return axisLoops(flight).map((loop) => {
    const rebuilt = rebuildIntegrator({ ...loop, demand: loop.moment!, isCut: loop.isLimited }, null)!;
    return { axis: loop.axis, samples: loop.time.length, ...rebuilt.gains };
  });
}

test("a fast log is thinned, and that leaves the gains of its loops as they are", () => {
  const slow = gainsAt(500);
  const fast = gainsAt(1000);
  expect(fast.map(({ axis }) => axis)).toEqual(AXES);
  for (const [k, { samples, proportional, integral }] of fast.entries()) {
    // Motors are logged at half these rates, and 500 Hz is taken in blocks of two.
    expect(samples / slow[k]!.samples).toBeCloseTo(1, 2);
    expect(Math.abs(proportional.value / slow[k]!.proportional.value - 1)).toBeLessThan(0.04);
    expect(Math.abs(integral.value / slow[k]!.integral.value - 1)).toBeLessThan(0.1);
  }
});
