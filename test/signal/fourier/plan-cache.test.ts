import { expect, test } from "vitest";
import { planCache } from "../../../src/signal/fourier/plan-cache.ts";

/** A cache with the lengths that it had to make plans for, in order. */
function counted() {
  const made: number[] = [];
  const plan = planCache((length) => {
    made.push(length);
    return { length };
  });
  return { made, plan };
}

test("a plan is made once and given again", () => {
  const { made, plan } = counted();
  expect(plan(1024)).toBe(plan(1024));
  expect(made).toEqual([1024]);
});

test("the plan that was not used for longest goes when together they are longer than 2^18", () => {
  const { made, plan } = counted();
  for (const length of [2 ** 17, 2 ** 16, 2 ** 15]) plan(length);
  plan(2 ** 17);
  plan(2 ** 16 + 1);
  // Too long together by one and 2^15: 2^16 was unused for longest.
  plan(2 ** 17);
  plan(2 ** 15);
  plan(2 ** 16);
  expect(made).toEqual([2 ** 17, 2 ** 16, 2 ** 15, 2 ** 16 + 1, 2 ** 16]);
});

test("one that is longer than all may be together is never kept, and drops no other", () => {
  const { made, plan } = counted();
  plan(1024);
  plan(2 ** 19);
  plan(2 ** 19);
  plan(1024);
  expect(made).toEqual([1024, 2 ** 19, 2 ** 19]);
});
