import { expect, test } from "vitest";
import { blockSize, thinning } from "../../src/detect/thinning.ts";

const ramp = Float64Array.from({ length: 10 }, (_, i) => i);
// Two stretches of seven and of three samples, in blocks of three.
const thin = thinning(
  [
    { from: 0, to: 7 },
    { from: 7, to: 10 },
  ],
  3,
);

test("no block reaches across a pause, and the last one of a stretch may hold fewer samples", () => {
  expect(thin.stretches).toEqual([
    { from: 0, to: 3 },
    { from: 3, to: 4 },
  ]);
  expect([...thin.mean(ramp)]).toEqual([1, 4, 6, 8]);
});

test("a flag that is up anywhere in a block is up for it", () => {
  const flags = new Uint8Array(10);
  flags[5] = 1;
  flags[9] = 1;
  expect([...thin.pickFlags(flags)]).toEqual([0, 1, 0, 1]);
});

test("blocks of one sample leave everything as it is", () => {
  const same = thinning([{ from: 0, to: 10 }], 1);
  expect(same.mean(ramp)).toBe(ramp);
});

test.each([
  [1000, 250, 4],
  [999.7, 250, 4],
  [400, 250, 1],
  [500, 250, 2],
  [50, 250, 1],
])("%d Hz comes to about %d Hz in blocks of %d", (rate, most, size) => {
  expect(blockSize(rate, most)).toBe(size);
});
