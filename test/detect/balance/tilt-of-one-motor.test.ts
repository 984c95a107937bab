import { describe, expect, test } from "vitest";
import { layoutOf } from "../../../src/detect/balance/load-shares.ts";
import { tiltOfEachMotor, tiltOfOneMotor } from "../../../src/detect/balance/tilt-of-one-motor.ts";
import { leastSquares, matrix, randomGenerator } from "../../../src/signal/index.ts";
import { BUILT_IN_AIRCRAFT } from "../../../src/simulate/index.ts";

const DEGREE = Math.PI / 180;
const quad = layoutOf(BUILT_IN_AIRCRAFT["small-quad"]!);
const survey = layoutOf(BUILT_IN_AIRCRAFT["survey-quad"]!);

/** The thrusts, over the weight, of four motors of which one is tilted: the four equations of hover, solved. */
function sharesWith(tilted: number, angle: number, { x, y, reaction, torqueRatio } = quad): Float64Array {
  const lift = x.map((_, i) => (i === tilted ? Math.cos(angle) : 1));
  const yaw = x.map(
    (_, i) => reaction[i]! * torqueRatio * lift[i]! + (i === tilted ? Math.hypot(x[i]!, y[i]!) * Math.sin(angle) : 0),
  );
  const rows = [lift, x.map((arm, i) => arm * lift[i]!), y.map((arm, i) => arm * lift[i]!), yaw];
  const { coefficients } = leastSquares(
    matrix(4, 4, Float64Array.from(rows.flatMap((row) => [...row]))),
    Float64Array.of(1, 0, 0, 0),
  );
  const total = coefficients.reduce((sum, share) => sum + share, 0);
  return coefficients.map((share) => share / total);
}

const biasOf = (shares: Float64Array) => shares.reduce((sum, share, i) => sum + share * quad.reaction[i]!, 0);

describe("tiltOfEachMotor", () => {
  test.each([
    [1, 0.0578],
    [2, 0.1157],
    [3, 0.1735],
  ])(
    "%d degrees of a motor that carries a quarter are held by %d of hover thrust more from one pair",
    (degrees, bias) => {
      // T arm sin(tilt) / (4 c): 5.78, 11.57 and 17.35 % of hover at an arm of 0.212132 m and c = 0.016 m
      for (const tilt of tiltOfEachMotor(quad, quad.healthy, -bias)) expect(tilt / DEGREE).toBeCloseTo(degrees, 2);
    },
  );

  test.each([1, 2, 3])(
    "the exact trim of each motor tilted by %d degrees gives the angle back within a hundredth",
    (degrees) => {
      for (const sign of [1, -1]) {
        for (let motor = 0; motor < 4; motor++) {
          const shares = sharesWith(motor, sign * degrees * DEGREE);
          const tilts = tiltOfEachMotor(quad, shares, biasOf(shares));
          // The cosine left out is worth 0.2 % of three degrees.
          expect(tilts[motor]! / DEGREE).toBeCloseTo(sign * degrees, 1.7);
        }
      }
    },
  );
});

describe("tiltOfOneMotor", () => {
  test.each([-2, -1, 1, 2])("of a small quadrotor is within 0.3 degrees of %d, whichever motor it is", (degrees) => {
    for (let motor = 0; motor < 4; motor++) {
      const shares = sharesWith(motor, degrees * DEGREE);
      const { value, low, high } = tiltOfOneMotor(quad, shares, biasOf(shares), 0.004)!;
      expect(Math.abs(value / DEGREE - degrees)).toBeLessThan(0.3);
      expect(low / DEGREE).toBeLessThan(degrees);
      expect(high / DEGREE).toBeGreaterThan(degrees);
    }
  });

  test.each([-2, -1, 1, 2])(
    "of long arms, where one direction works half as hard again, is within 0.3 degrees of %d as well",
    (degrees) => {
      for (let motor = 0; motor < 4; motor++) {
        const shares = sharesWith(motor, degrees * DEGREE, survey);
        const { value, ofEach } = tiltOfOneMotor(survey, shares, biasOf(shares), 0.004)!;
        expect(Math.abs(value / DEGREE - degrees)).toBeLessThan(0.3);
        // If the tilted motor is known, only the cosine is left out.
        expect(ofEach[motor]!.value / DEGREE).toBeCloseTo(degrees, 2);
      }
    },
  );

  test("its 95 % interval holds 93 to 97 % of 2000 tilts of motors drawn at random", () => {
    const random = randomGenerator(7);
    const noise = 0.002;
    let held = 0;
    for (let trial = 0; trial < 2000; trial++) {
      const angle = 1.5 * DEGREE * random.gaussian();
      const shares = sharesWith(Math.floor(4 * random.uniform()), angle, survey);
      // The shares would carry the noise as well; it is a hundredth of them.
      const bias = biasOf(shares) + noise * random.gaussian();
      const { low, high } = tiltOfOneMotor(survey, shares, bias, 1.96 * noise)!;
      if (low <= angle && angle <= high) held++;
    }
    expect(held / 2000).toBeGreaterThan(0.93);
    expect(held / 2000).toBeLessThan(0.97);
  });

  test("a bias that no tilt of one motor could make has no tilt", () => {
    expect(tiltOfOneMotor(quad, quad.healthy, -4, 0.01)).toBeNull();
  });
});
