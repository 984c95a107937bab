import { expect, test } from "vitest";
import { controlEffectiveness, leastThrusts, momentRoom, thrustRanges } from "../../src/aircraft/index.ts";
import { randomGenerator } from "../../src/signal/index.ts";
import { layout, xQuad } from "./x-quad.ts";

function roomAt(thrust: number, idle = 0) {
  const aircraft = xQuad({ idle });
  const effectiveness = controlEffectiveness(aircraft);
  const room = momentRoom(effectiveness, thrustRanges(aircraft, effectiveness));
  return { room, thrusts: leastThrusts(effectiveness, [thrust, 0, 0, 0]) };
}

test.each([
  [6.4, 0.96, 0.1024],
  [16, 2.4, 0.256],
  [25.6, 0.96, 0.1024],
  [14.70998, 2.206497, 0.23536],
])(
  "at %f N of thrust the worked quadrotor has %f N m of roll and pitch left and %f N m of yaw",
  (thrust, tilt, yaw) => {
    const { room, thrusts } = roomAt(thrust);
    for (const direction of [1, -1] as const) {
      expect(room.left("roll", direction, thrusts)).toBeCloseTo(tilt, 6);
      expect(room.left("pitch", direction, thrusts)).toBeCloseTo(tilt, 6);
      expect(room.left("yaw", direction, thrusts)).toBeCloseTo(yaw, 6);
    }
  },
);

test("an armed floor of 0.4 N leaves 1.966497 N m in hover", () => {
  const { room, thrusts } = roomAt(14.70998, 0.05);
  expect(room.left("roll", 1, thrusts)).toBeCloseTo(1.966497, 6);
});

test("a motor at its ceiling leaves nothing in the directions that need more of it, and is named", () => {
  const { room } = roomAt(16);
  // Front left full: no more roll to the right, pitch up or yaw to the left.
  const thrusts = [8, 4, 4, 4];
  expect(room.left("roll", 1, thrusts)).toBe(0);
  expect(room.binding("roll", 1, thrusts)).toBe(1);
  expect(room.left("pitch", 1, thrusts)).toBe(0);
  expect(room.binding("pitch", 1, thrusts)).toBe(1);
  expect(room.left("yaw", -1, thrusts)).toBe(0);
  expect(room.binding("yaw", -1, thrusts)).toBe(1);
  expect(room.left("roll", -1, thrusts)).toBeGreaterThan(1);
});

test("three like rotors have roll and pitch but no yaw of their own", () => {
  const aircraft = layout(
    [
      [0.2, 0, "cw"],
      [-0.1, 0.17, "cw"],
      [-0.1, -0.17, "cw"],
    ],
    { max: 5, torqueRatio: 0.02 },
  );
  const effectiveness = controlEffectiveness(aircraft);
  const room = momentRoom(effectiveness, thrustRanges(aircraft, effectiveness));
  expect(room.axes).toEqual(["roll", "pitch"]);
  // From 2 N each, nose down takes the front motor's 2 N: levers 0.2 and half of 0.1 each behind.
  expect(room.left("pitch", -1, [2, 2, 2])).toBeCloseTo(2 * 0.2 + 2 * 0.1, 9);
});

test("the moment left equals the best of a fine search over random layouts of five and six motors", () => {
  const random = randomGenerator(3);
  for (let trial = 0; trial < 12; trial++) {
    const count = trial % 2 === 0 ? 5 : 6;
    const places = Array.from({ length: count }, (_, i) => {
      const angle = (2 * Math.PI * (i + 0.3 * random.uniform())) / count;
      const reach = 0.2 + 0.2 * random.uniform();
      return [reach * Math.cos(angle), reach * Math.sin(angle), i % 2 === 0 ? "cw" : "ccw"] as const;
    });
    const aircraft = layout(places, { max: 10, torqueRatio: 0.05, idle: 0.05 });
    const effectiveness = controlEffectiveness(aircraft);
    const ranges = thrustRanges(aircraft, effectiveness);
    const thrusts = ranges.map(({ low, high }) => low + (high - low) * random.uniform());
    const room = momentRoom(effectiveness, ranges);
    for (const [k, axis] of (["roll", "pitch", "yaw"] as const).entries()) {
      for (const direction of [1, -1] as const) {
        const moment = room.left(axis, direction, thrusts);
        const best = search(effectiveness, ranges, thrusts, k + 1, direction);
        expect(moment).toBeGreaterThanOrEqual(best - 1e-9);
        expect(moment - best).toBeLessThan(0.02 * (moment + 0.05));
      }
    }
  }
});

test.each([4, 5, 6, 8])(
  "over a flight of %i motors the moment left is what each moment by itself has, to the last bit",
  (count) => {
    const random = randomGenerator(10 + count);
    for (let trial = 0; trial < 6; trial++) {
      // Regular layouts too: there faces lie together and many are nearest at once.
      const [wobble, isCoaxial] = [trial % 2, trial > 3 && count % 2 === 0];
      const aircraft = layout(
        Array.from({ length: count }, (_, i) => {
          const arm = isCoaxial ? Math.floor(i / 2) : i;
          const angle = (2 * Math.PI * (arm + 0.3 * wobble * random.uniform())) / (isCoaxial ? count / 2 : count);
          return [0.4 * Math.cos(angle), 0.4 * Math.sin(angle), i % 2 === 0 ? "cw" : "ccw"] as const;
        }),
        { max: 10, torqueRatio: 0.05, idle: 0.05 },
      );
      const effectiveness = controlEffectiveness(aircraft);
      const ranges = thrustRanges(aircraft, effectiveness);
      const room = momentRoom(effectiveness, ranges);
      // Slow changes, noise, and stretches at the limits.
      const thrusts = ranges.map(({ low, high }) => {
        let wanted = (low + high) / 2;
        return Float64Array.from({ length: 1000 }, () => {
          wanted = 0.995 * wanted + 0.005 * (low + (high - low) * (4 * random.uniform() - 1.5));
          return Math.min(high, Math.max(low, wanted + (trial % 3) * 0.5 * random.uniform()));
        });
      });
      const over = room.over(thrusts);
      for (const axis of room.axes) {
        for (const direction of [1, -1] as const) {
          const each = thrusts[0]!.map((_, k) =>
            room.left(
              axis,
              direction,
              thrusts.map((thrust) => thrust[k]!),
            ),
          );
          expect(over(axis, direction)).toEqual(each);
        }
      }
    }
  },
);

/** Ways to give the same wrench differ by the null space: the search walks it, and steps along the axis as far as it goes. */
function search(
  effectiveness: ReturnType<typeof controlEffectiveness>,
  ranges: readonly { low: number; high: number }[],
  thrusts: readonly number[],
  row: number,
  direction: 1 | -1,
): number {
  const step = leastThrusts(
    effectiveness,
    [0, 1, 2, 3].map((k) => (k === row ? direction : 0)),
  );
  const free = nullSpace(effectiveness, ranges.length);
  const farthest = (offset: readonly number[]) => {
    let [from, to] = [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY];
    for (const [i, { low, high }] of ranges.entries()) {
      const here = thrusts[i]! + free.reduce((sum, way, k) => sum + offset[k]! * way[i]!, 0);
      if (Math.abs(step[i]!) < 1e-12) {
        if (here < low || here > high) return Number.NEGATIVE_INFINITY;
        continue;
      }
      const [a, b] = [(low - here) / step[i]!, (high - here) / step[i]!];
      from = Math.max(from, Math.min(a, b));
      to = Math.min(to, Math.max(a, b));
    }
    return from <= to ? to : Number.NEGATIVE_INFINITY;
  };
  // The reachable step is concave in the offset: the grid closes in on its best point.
  let centre = free.map(() => 0);
  let best = farthest(centre);
  for (let width = 16; width > 1e-4; width *= 0.7) {
    const start = centre;
    for (let u = -12; u <= 12; u++) {
      for (let v = free.length > 1 ? -12 : 0; v <= (free.length > 1 ? 12 : 0); v++) {
        const offset = start.map((at, k) => at + ((k === 0 ? u : v) / 12) * width);
        const here = farthest(offset);
        if (here > best) [best, centre] = [here, offset];
      }
    }
  }
  return best;
}

function nullSpace(effectiveness: ReturnType<typeof controlEffectiveness>, count: number): number[][] {
  const ways: number[][] = [];
  for (let i = 0; i < count && ways.length < count - 4; i++) {
    const unit = Float64Array.from({ length: count }, (_, k) => (k === i ? 1 : 0));
    const wrench = [0, 1, 2, 3].map((k) => effectiveness.matrix.data[k * count + i]!);
    const back = leastThrusts(effectiveness, wrench);
    let way = Array.from(unit, (value, k) => value - back[k]!);
    for (const known of ways) {
      const along = known.reduce((sum, value, k) => sum + value * way[k]!, 0);
      way = way.map((value, k) => value - along * known[k]!);
    }
    const size = Math.hypot(...way);
    if (size > 1e-6) ways.push(way.map((value) => value / size));
  }
  return ways;
}
