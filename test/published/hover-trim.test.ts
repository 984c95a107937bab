import { describe, expect, test } from "vitest";
import type { Aircraft } from "../../src/aircraft/index.ts";
import { fly } from "../../src/simulate/flight/fly.ts";
import { rotorPower } from "../../src/simulate/physics/rotor-power.ts";
import { GRAVITY } from "../../src/simulate/scenario/setup.ts";
import { builtInAircraft, lastMean, lastShares, stillHover } from "../simulate/support/flights.ts";

/** The quadrotor of the worked examples in statics: 1.5 kg, arms (0.15, 0.15) m, torque ratio 0.016 m. */
const quad: Aircraft = {
  ...builtInAircraft("small-quad"),
  motors: [
    { x: 0.15, y: -0.15, spin: "cw", label: "front left", maxThrust: null },
    { x: 0.15, y: 0.15, spin: "ccw", label: "front right", maxThrust: null },
    { x: -0.15, y: 0.15, spin: "cw", label: "rear right", maxThrust: null },
    { x: -0.15, y: -0.15, spin: "ccw", label: "rear left", maxThrust: null },
  ],
};

describe("hover", () => {
  test.each(["survey-quad", "small-quad", "hexa", "octo", "coaxial-octo"])(
    "%s: mean thrust share is weight over the sum of largest thrusts, command its root",
    (name) => {
      const aircraft = builtInAircraft(name);
      const flown = fly(stillHover({ aircraft }));
      const { maxThrust } = flown.setup.vehicle;
      const shares = lastShares(flown);
      const lifted = shares.reduce((sum, share, i) => sum + share * maxThrust[i]!, 0);
      expect(lifted / (aircraft.mass!.value * GRAVITY)).toBeCloseTo(1, 4);
      if (aircraft.motors.every(({ maxThrust: own }) => own === null)) {
        const command = Math.sqrt((aircraft.mass!.value * GRAVITY) / (aircraft.motors.length * aircraft.thrust.max!));
        for (const share of shares) expect(Math.sqrt(share)).toBeCloseTo(command, 4);
      }
    },
  );

  test("power agrees with momentum theory: 1.5 kg on four rotors of 0.127 m draws 133.437 W at a figure of merit of 0.6", () => {
    // Rankine-Froude: P = T^1.5 / sqrt(2 rho A); Leishman, Principles of Helicopter Aerodynamics, ch. 2
    const rotor = { radius: 0.127, merit: 0.6, speed: 1000, imbalance: 0 };
    expect(4 * rotorPower(3.677494, rotor, 1.225, 0, 0)).toBeCloseTo(133.437, 3);
    expect(4 * rotorPower(3.677494, { ...rotor, merit: 1 }, 1.225, 0, 0)).toBeCloseTo(80.06196, 4);
    const battery = { efficiency: 1, avionics: 0, sag: false };
    const rotors = { radius: 0.127, merit: 0.6, imbalance: 0 };
    const flown = fly(stillHover({ aircraft: { ...quad, mass: { value: 1.5, error: null } }, battery, rotors }));
    expect(lastMean(flown, "battery.voltage") * lastMean(flown, "battery.current")).toBeCloseTo(133.437, 1);
  });
});

describe("trim equals statics", () => {
  test("a centre of gravity 6 mm forward and 4 mm left gives thrusts 3.922661, 3.726528, 3.432329, 3.628462 N", () => {
    const flown = fly(
      stillHover({ aircraft: quad, faults: [{ kind: "cg-offset", x: 0.006, y: -0.004 }], seconds: 60 }),
    );
    const thrusts = lastShares(flown).map((share) => share * 14.5);
    const expected = [3.922661, 3.726528, 3.432329, 3.628462];
    for (const [i, thrust] of thrusts.entries()) expect(thrust / expected[i]!).toBeCloseTo(1, 3);
    const weighted = (axis: "x" | "y") => thrusts.reduce((sum, thrust, i) => sum + thrust * quad.motors[i]![axis], 0);
    const total = thrusts.reduce((sum, thrust) => sum + thrust, 0);
    expect(weighted("x") / total).toBeCloseTo(0.006, 4);
    expect(weighted("y") / total).toBeCloseTo(-0.004, 4);
  });

  test.each([
    [1, 0.212704],
    [2, 0.425343],
    [3, 0.637852],
  ])("a motor tilted by %d degrees is held by a split of %d N between the pairs, to first order", (degrees, split) => {
    const flown = fly(stillHover({ aircraft: quad, faults: [{ kind: "motor-tilt", motor: 1, degrees }], seconds: 60 }));
    const [a, b, c, d] = lastShares(flown).map((share) => share * 14.5) as [number, number, number, number];
    // Tilted clockwise, the motor turns the nose right: the clockwise pair, whose torque turns it left, works harder.
    // The motor that is tilted pulls 6 to 17 % harder itself, so the first-order figure holds to that.
    const measured = (a + c - b - d) / 4;
    expect(measured).toBeGreaterThan(split * 0.98);
    expect(measured).toBeLessThan(split * 1.25);
    const own = a * 0.15 * Math.SQRT2 * Math.sin((degrees * Math.PI) / 180);
    expect((0.016 * (a * Math.cos((degrees * Math.PI) / 180) + c - b - d)) / own).toBeCloseTo(1, 2);
  });
});
