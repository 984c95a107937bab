import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { allocate } from "../../../src/simulate/control/allocate.ts";
import { controlAxes } from "../../../src/simulate/control/control-axes.ts";
import { createVehicle } from "../../../src/simulate/physics/vehicle.ts";
import { setUp } from "../../../src/simulate/scenario/setup.ts";
import { builtInAircraft, stillHover } from "../support/flights.ts";

function axesOf(name: string) {
  const aircraft = builtInAircraft(name);
  const { vehicle } = setUp(stillHover({ aircraft }));
  return { aircraft, vehicle, axes: controlAxes(aircraft, vehicle) };
}

test("unlimited, the thrusts give exactly the moments that were asked for, in every layout", () => {
  for (const name of ["small-quad", "hexa", "octo", "coaxial-octo"]) {
    const { aircraft, vehicle, axes } = axesOf(name);
    const wanted = Float64Array.of(0.05, -0.04, 0.03);
    const share = new Float64Array(vehicle.motors);
    allocate(axes, "clip", 0.5, wanted, 0, share);
    const upright = createVehicle(aircraft, vehicle.body, 9.80665);
    for (let k = 0; k < 3; k++) {
      let moment = 0;
      for (let i = 0; i < vehicle.motors; i++) {
        moment += upright.wrench[6 * i + 3 + k]! * upright.maxThrust[i]! * share[i]!;
      }
      expect(moment / axes.moment[k]!).toBeCloseTo(wanted[k]!, 9);
    }
  }
});

test("the quadrotor's inverse is the one of the worked example: thrust/4, +-1/4a, +-1/4c", () => {
  // [14.70998 N, 0.1, -0.05, 0.02 N m] on a = 0.15 m, c = 0.016 m gives these thrusts.
  const base = builtInAircraft("small-quad");
  const signs = [
    [1, -1],
    [1, 1],
    [-1, 1],
    [-1, -1],
  ] as const;
  const motors = base.motors.map((motor, i) => ({ ...motor, x: 0.15 * signs[i]![0], y: 0.15 * signs[i]![1] }));
  const aircraft = { ...base, motors, thrust: { ...base.thrust, max: 10, torqueRatio: 0.016 } };
  const { vehicle } = setUp(stillHover({ aircraft }));
  const axes = controlAxes(aircraft, vehicle);
  const output = Float64Array.from([0.1, -0.05, 0.02], (moment, k) => moment / axes.moment[k]!);
  const share = new Float64Array(4);
  allocate(axes, "clip", 14.70998 / 40, output, 0, share);
  const expected = [3.448328, 3.739995, 3.281662, 4.239995];
  for (const [i, value] of share.entries()) expect(10 * value).toBeCloseTo(expected[i]!, 5);
});

describe("limits", () => {
  const output = fc.array(fc.double({ min: -1, max: 1, noNaN: true }), { minLength: 3, maxLength: 3 });
  const collective = fc.double({ min: 0, max: 1, noNaN: true });

  test.each(["clip", "roll-pitch-priority"] as const)("%s never leaves floor..1", (method) => {
    const { axes, vehicle } = axesOf("hexa");
    const share = new Float64Array(vehicle.motors);
    fc.assert(
      fc.property(collective, output, (thrust, asked) => {
        allocate(axes, method, thrust, Float64Array.from(asked), 0.01, share);
        for (const value of share) {
          expect(value).toBeGreaterThanOrEqual(0.01 - 1e-12);
          expect(value).toBeLessThanOrEqual(1 + 1e-12);
        }
      }),
      { seed: 1 },
    );
  });

  test("roll-pitch-priority keeps roll and pitch whole where yaw asks too much", () => {
    const { axes, aircraft, vehicle } = axesOf("small-quad");
    const share = new Float64Array(4);
    expect(allocate(axes, "roll-pitch-priority", 0.4, Float64Array.of(0.3, 0.2, 1), 0, share)).toBe(true);
    const pitch = aircraft.motors.reduce((sum, motor, i) => sum + motor.x * vehicle.maxThrust[i]! * share[i]!, 0);
    expect(pitch / axes.moment[1]).toBeCloseTo(0.2, 9);
  });
});
