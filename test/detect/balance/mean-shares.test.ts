import { describe, expect, test } from "vitest";
import { meanShares } from "../../../src/detect/balance/mean-shares.ts";
import { randomGenerator } from "../../../src/signal/index.ts";

const RATE = 50;
const series = (seconds: number, value: (t: number) => number) => {
  const time = Float64Array.from({ length: seconds * RATE }, (_, i) => i / RATE);
  return { time, values: time.map(value) };
};
const ONES = Float64Array.of(1, 1, 1, 1);

describe("meanShares", () => {
  test("shares of steady demands are their parts of the total, weighted by each motor's largest thrust", () => {
    const demands = [1, 1, 1, 1].map((value) => series(20, () => value));
    const { shares, seconds } = meanShares(demands, Float64Array.of(2, 1, 1, 1), [{ start: 0, end: 20 }])!;
    expect(Array.from(shares)).toEqual([0.4, 0.2, 0.2, 0.2].map((share) => expect.closeTo(share, 12)));
    expect(seconds).toBeCloseTo(20, 6);
  });

  test("what drifting does to the shares is led back to zero speed", () => {
    const speed = series(24, (t) => 0.6 * Math.sin((2 * Math.PI * t) / 24) + 0.1);
    const front = series(24, (t) => 1 - 0.06 * (0.6 * Math.sin((2 * Math.PI * t) / 24) + 0.1));
    const rear = series(24, (t) => 1 + 0.06 * (0.6 * Math.sin((2 * Math.PI * t) / 24) + 0.1));
    const { shares } = meanShares([front, front, rear, rear], ONES, [{ start: 0, end: 24 }], [speed])!;
    for (const share of shares) expect(share).toBeCloseTo(0.25, 5);
  });

  test("less than four seconds tell no interval, and so nothing", () => {
    const demands = [1, 1, 1, 1].map((value) => series(10, () => value));
    expect(meanShares(demands, ONES, [{ start: 0, end: 3.9 }])).toBeNull();
  });

  test("nine of ten intervals or more hold the true share though the noise is correlated over a second", () => {
    const random = randomGenerator(3);
    let held = 0;
    for (let trial = 0; trial < 100; trial++) {
      let level = 0;
      const noisy = series(60, () => {
        level = 0.98 * level + 0.002 * random.gaussian();
        return 1 + level;
      });
      const even = series(60, () => 1);
      const { shares, covariance } = meanShares([noisy, even, even, even], ONES, [{ start: 0, end: 60 }])!;
      if (Math.abs(shares[0]! - 0.25) < 2.2 * Math.sqrt(covariance.data[0]!)) held++;
    }
    expect(held).toBeGreaterThanOrEqual(90);
  });
});
