import { expect, test } from "vitest";
import {
  attainableMoments,
  controlEffectiveness,
  exactThrusts,
  thrustRanges,
  wrenchOf,
} from "../../src/aircraft/index.ts";
import { randomGenerator } from "../../src/signal/index.ts";
import { BUILT_IN_AIRCRAFT } from "../../src/simulate/index.ts";
import { xQuad } from "./x-quad.ts";

test("the worked quadrotor attains a rhombic dodecahedron: 14 corners, 12 faces, volume 16 a^2 c", () => {
  const aircraft = xQuad({ max: 1 });
  const effectiveness = controlEffectiveness(aircraft);
  const set = attainableMoments(effectiveness, thrustRanges(aircraft, effectiveness));
  expect(set.vertices).toHaveLength(14);
  expect(set.faces).toBe(12);
  expect(set.volume).toBeCloseTo(16 * 0.15 ** 2 * 0.016, 14);
});

test("coaxial pairs and flat octorotors have faces and corners as Euler's formula wants them", () => {
  for (const aircraft of [BUILT_IN_AIRCRAFT["coaxial-octo"]!, BUILT_IN_AIRCRAFT.octo!, BUILT_IN_AIRCRAFT.hexa!]) {
    const effectiveness = controlEffectiveness(aircraft);
    const set = attainableMoments(effectiveness, thrustRanges(aircraft, effectiveness));
    expect(set.volume).toBeGreaterThan(0);
    // Corners - edges + faces = 2; every corner of a solid has at least three edges.
    const edges = set.vertices.length + set.faces - 2;
    expect(2 * edges).toBeGreaterThanOrEqual(3 * set.vertices.length);
  }
});

test("exact allocation gives the wrench of any thrusts within the ranges, with thrusts within the ranges", () => {
  const random = randomGenerator(5);
  for (const aircraft of Object.values(BUILT_IN_AIRCRAFT)) {
    const effectiveness = controlEffectiveness(aircraft);
    const ranges = thrustRanges(aircraft, effectiveness);
    for (let trial = 0; trial < 20; trial++) {
      const wanted = wrenchOf(
        effectiveness,
        Float64Array.from(ranges, ({ low, high }) => low + random.uniform() * (high - low)),
      );
      const thrusts = exactThrusts(effectiveness, ranges, wanted)!;
      expect(thrusts).not.toBeNull();
      for (const [k, value] of wrenchOf(effectiveness, thrusts).entries()) {
        expect(Math.abs(value - wanted[k]!)).toBeLessThan(1e-4);
      }
      for (const [i, { low, high }] of ranges.entries()) {
        expect(thrusts[i]).toBeGreaterThanOrEqual(low);
        expect(thrusts[i]).toBeLessThanOrEqual(high);
      }
    }
  }
});

test("exact allocation says so where a wrench is beyond the motors", () => {
  const aircraft = xQuad();
  const effectiveness = controlEffectiveness(aircraft);
  const ranges = thrustRanges(aircraft, effectiveness);
  expect(exactThrusts(effectiveness, ranges, [14.70998, 2.2, 0, 0])).not.toBeNull();
  expect(exactThrusts(effectiveness, ranges, [14.70998, 2.22, 0, 0])).toBeNull();
  expect(exactThrusts(effectiveness, ranges, [33, 0, 0, 0])).toBeNull();
});
