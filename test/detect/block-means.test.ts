import { expect, test } from "vitest";
import { blockSize, blocksOf } from "../../src/detect/block-means.ts";

const ramp = Float64Array.from({ length: 10 }, (_, i) => i);
const stretches = [
  { from: 0, to: 7 },
  { from: 7, to: 9 },
  { from: 9, to: 10 },
];
const blocks = blocksOf(stretches, 3);

test("no block reaches across a pause, and the last one of a stretch takes the rest", () => {
  expect(blocks.stretches).toEqual([
    { from: 0, to: 2 },
    { from: 2, to: 3 },
    { from: 3, to: 4 },
  ]);
  expect([...blocks.first(ramp)]).toEqual([0, 3, 7, 9]);
  expect([...blocks.mean(ramp)]).toEqual([1, 4.5, 7.5, 9]);
});

test("a flag that is up anywhere in a block is up for it", () => {
  const flags = new Uint8Array(10);
  flags[6] = 1;
  flags[9] = 1;
  expect([...blocks.any(flags)]).toEqual([0, 1, 0, 1]);
});

test("blocks of one sample leave everything as it is, and no stretch makes no block", () => {
  const same = blocksOf([{ from: 0, to: 10 }], 1);
  expect(same.mean(ramp)).toBe(ramp);
  expect(same.first(ramp)).toBe(ramp);
  expect([...blocksOf([], 3).mean(ramp)]).toEqual([]);
});

test.each([
  [1000, 5],
  [999.7, 5],
  [588, 2],
  [600, 3],
  [400, 2],
  [390, 1],
  [50, 1],
])("at %d Hz it takes %d samples to come down to 200 Hz", (rate, size) => {
  const time = Float64Array.from({ length: 5000 }, (_, k) => k / rate);
  expect(blockSize(time, [{ from: 0, to: 5000 }], 200)).toBe(size);
});

test("stamps in bursts count by their mean rate, and pauses between stretches not at all", () => {
  const bursts = Float64Array.from({ length: 4000 }, (_, k) => Math.floor(k / 4) * 0.01 + (k % 4) * 1e-4);
  expect(blockSize(bursts, [{ from: 0, to: 4000 }], 200)).toBe(2);
  const paused = Float64Array.from({ length: 2000 }, (_, k) => k / 1000 + (k < 1000 ? 0 : 60));
  const two = [
    { from: 0, to: 1000 },
    { from: 1000, to: 2000 },
  ];
  expect(blockSize(paused, two, 200)).toBe(5);
});
