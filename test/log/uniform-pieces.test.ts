import { expect, test } from "vitest";
import type { Channel } from "../../src/log/channel.ts";
import { uniformPieces } from "../../src/log/uniform-pieces.ts";

test("uniformPieces cuts a channel at its gaps and puts values between samples on the straight line", () => {
  const time = Float64Array.of(0, 0.1, 0.3, 0.4, 2, 2.1, 2.2);
  const channel: Channel = {
    name: "rate.roll.measured",
    column: "p",
    unit: "rad/s",
    series: { time, values: time.map((t) => 3 * t) },
    rate: 10,
    coverage: 0.3,
    longestGap: 1.6,
    gaps: [{ start: 0.4, end: 2 }],
    stuck: [],
  };
  const pieces = uniformPieces(channel, { start: 0, end: 3 });
  expect(pieces.map(({ start }) => start)).toEqual([0, 2]);
  expect(pieces.map(({ values }) => values.length)).toEqual([5, 3]);
  pieces[0]!.values.forEach((value, index) => {
    expect(value).toBeCloseTo(0.3 * index, 9);
  });
});
