import { describe, expect, test } from "vitest";
import { parseAircraft } from "../../../src/aircraft/index.ts";
import { layoutOf, loadCentre } from "../../../src/detect/balance/load-shares.ts";
import { BUILT_IN_AIRCRAFT } from "../../../src/simulate/index.ts";

/** The quadrotor of the worked examples in statics: 1.5 kg, arms (0.15, 0.15) m, torque ratio 0.016 m. */
const layout = layoutOf(
  parseAircraft(
    `name: worked example
mass: 1.5
motors:
  - { x: 0.15, y: -0.15, spin: cw }
  - { x: 0.15, y: 0.15, spin: ccw }
  - { x: -0.15, y: 0.15, spin: cw }
  - { x: -0.15, y: -0.15, spin: ccw }
command: { unit: "1", min: 0, max: 1 }
thrust: { torque-ratio: 0.016 }`,
    "worked-example.aircraft.yaml",
  ),
);
const sharesOf = (thrusts: readonly number[]) => {
  const total = thrusts.reduce((sum, thrust) => sum + thrust, 0);
  return Float64Array.from(thrusts, (thrust) => thrust / total);
};

describe("loadCentre", () => {
  test("thrusts 3.922661, 3.726528, 3.432329, 3.628462 N put the centre of gravity 6 mm forward and 4 mm left", () => {
    const { forward, right, spinBias } = loadCentre(layout, sharesOf([3.922661, 3.726528, 3.432329, 3.628462]));
    // The thrusts are given to six decimals, which is worth 0.02 micrometres.
    expect(forward).toBeCloseTo(0.006, 7);
    expect(right).toBeCloseTo(-0.004, 7);
    expect(spinBias).toBeCloseTo(0, 6);
  });

  test("four alike motors carry a quarter each, and their centre is the middle", () => {
    expect(Array.from(layout.healthy)).toEqual([0.25, 0.25, 0.25, 0.25].map((share) => expect.closeTo(share, 12)));
    const { forward, right, spinBias } = loadCentre(layout, layout.healthy);
    expect([forward, right, spinBias]).toEqual([0, 0, 0].map((zero) => expect.closeTo(zero, 12)));
  });

  test("a weaker lower rotor of a coaxial pair has a smaller share without any imbalance", () => {
    const coaxial = layoutOf(BUILT_IN_AIRCRAFT["coaxial-octo"]!);
    expect(coaxial.healthy[1]! / coaxial.healthy[0]!).toBeCloseTo((44 / 55) ** 2, 10);
    expect(loadCentre(coaxial, coaxial.healthy).forward).toBeCloseTo(0, 12);
  });
});
