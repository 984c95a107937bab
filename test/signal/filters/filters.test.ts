import { describe, expect, test } from "vitest";
import {
  analyticSignal,
  butterworth,
  decimate,
  differentiate,
  filterCausal,
  filterZeroPhase,
  notch,
  robustEnvelope,
  runningMedian,
  sectionsResponse,
  standardDeviation,
  steadyState,
} from "../../../src/signal/index.ts";
import reference from "../../reference/filters.json" with { type: "json" };
import { expectClose, noise, sine } from "../support.ts";

function runningSum(values: Float64Array, start = 0): Float64Array {
  let sum = start;
  return values.map((value) => {
    sum += value;
    return sum;
  });
}

describe("agreement with SciPy (version in the reference file)", () => {
  test.each(reference.butterworth)("butterworth($order, $cutoff, 100, $pass) and both ways of filtering", (row) => {
    const cutoff = row.cutoff as number | [number, number];
    const filter = butterworth(row.order, cutoff, 100, { pass: row.pass as "low" | "high" | "band" });
    const response = sectionsResponse(filter, Float64Array.from(reference.frequency));
    expectClose([...response.re, ...response.im], [...row.response.re, ...row.response.im], 1e-9);
    const samples = runningSum(noise(row.order, 131), 0).map((value) => value + 2);
    expectClose(filterCausal(filter, samples), row.causal, 1e-9);
    expectClose(filterZeroPhase(filter, samples), row.zeroPhase, 1e-9);
  });

  test("notch(60, 30, 1000)", () => {
    const { b, a } = reference.notch;
    expectClose(notch(60, 30, 1000).coefficients, [...b, ...a.slice(1)], 1e-12);
  });

  test("decimate keeps every fifth sample of the zero-phase filtered signal", () => {
    const { values, sampleRate } = decimate(runningSum(noise(9, 203)), 50, 5);
    expectClose(values, reference.decimated, 1e-9);
    expect(sampleRate).toBe(10);
  });

  test.each(reference.hilbert)("analyticSignal of $length samples", (row) => {
    const { re, im } = analyticSignal(noise(11, row.length));
    expectClose([...re, ...im], [...row.signal.re, ...row.signal.im], 1e-12);
  });
});

describe("butterworth", () => {
  test("refuses a cut-off at or above half the sample rate, a falling band and an order out of range", () => {
    expect(() => butterworth(2, 50, 100)).toThrow(/cutoff: needs a number between 0 and 50, got 50/);
    expect(() => butterworth(2, 0, 100)).toThrow(/cutoff/);
    expect(() => butterworth(2, [20, 10], 100)).toThrow(/rising pair/);
    expect(() => butterworth(2, [10, 20], 100, { pass: "low" })).toThrow(/one for pass "low"/);
    expect(() => butterworth(0, 10, 100)).toThrow(/order/);
    expect(() => butterworth(2.5, 10, 100)).toThrow(/order/);
    expect(() => butterworth(2, 10, Number.NaN)).toThrow(/sampleRate/);
  });
});

describe("filterZeroPhase", () => {
  test("passes a constant undisturbed and a straight line within 3 % of its step at the ends", () => {
    const line = Float64Array.from({ length: 50 }, (_, n) => 3 - 0.2 * n);
    const filter = butterworth(4, 10, 100);
    const constant = new Float64Array(50).fill(3);
    expectClose(filterZeroPhase(filter, constant), constant, 1e-12);
    const error = filterZeroPhase(filter, line).map((value, n) => Math.abs(value - line[n]!));
    expect(Math.max(...error)).toBeLessThan(0.03 * 0.2);
  });

  test("refuses a signal no longer than its padding, and NaN", () => {
    expect(() => filterZeroPhase(butterworth(4, 10, 100), noise(1, 15))).toThrow(/needs at least 16 samples, got 15/);
    expect(() => filterZeroPhase(butterworth(4, 10, 100), new Float64Array(20).fill(Number.NaN))).toThrow(/finite/);
  });

  test("leaves its input as it was", () => {
    const samples = noise(1, 64);
    filterZeroPhase(butterworth(2, 10, 100), samples);
    expect(samples).toEqual(noise(1, 64));
  });
});

test("filterCausal started from the steady state shows no step at the beginning of a constant", () => {
  const filter = butterworth(5, [5, 20], 100);
  const low = butterworth(3, 5, 100);
  const constant = new Float64Array(40).fill(3);
  const scaled = (state: Float64Array) => state.map((value) => 3 * value);
  expect(
    Math.max(...filterCausal(filter, constant, { initialState: scaled(steadyState(filter)) }).map(Math.abs)),
  ).toBeLessThan(1e-9);
  expectClose(filterCausal(low, constant, { initialState: scaled(steadyState(low)) }), constant, 1e-12);
});

test("decimate holds a tone inside its bandwidth within 0.1 dB and suppresses one that would fold", () => {
  const gain = (frequency: number) => {
    const { values, bandwidth } = decimate(sine({ frequency, sampleRate: 1000, count: 4000 }), 1000, 10);
    expect(bandwidth).toBeGreaterThan(30);
    return standardDeviation(values.subarray(50, 350)) * Math.SQRT2;
  };
  expect(20 * Math.log10(gain(30))).toBeGreaterThan(-0.11);
  expect(20 * Math.log10(gain(64))).toBeLessThan(-60);
});

test("differentiate gives the slope of a line within 1 % and 1/sqrt(2) of a sine's at the stated bandwidth", () => {
  expectClose(
    differentiate(
      Float64Array.from({ length: 60 }, (_, n) => 5 + 0.3 * n),
      10,
      1,
    ),
    new Float64Array(60).fill(3),
    1e-2,
  );
  const rate = differentiate(sine({ frequency: 20, sampleRate: 1000, count: 2000 }), 1000, 20);
  expect(Math.max(...rate.subarray(500, 1500)) / (2 * Math.PI * 20)).toBeCloseTo(Math.SQRT1_2, 2);
  expect(() => differentiate(noise(1, 100), 100, 20)).toThrow(/bandwidth/);
});

test("runningMedian agrees with sorting each neighbourhood afresh", () => {
  const values = noise(3, 40);
  const slow = values.map((_, i) => {
    const near = values.slice(Math.max(0, i - 3), i + 4).sort();
    return (near[(near.length - 1) >> 1]! + near[near.length >> 1]!) / 2;
  });
  expectClose(runningMedian(values, 7), slow, 0);
});

test("robustEnvelope of a steady tone is its amplitude, one wild sample or not", () => {
  const tone = sine({ amplitude: 2, frequency: 10, sampleRate: 200, count: 400 });
  tone[200] = 30;
  const envelope = robustEnvelope(tone, { medianLength: 41 });
  expect(Math.max(...envelope.map((value) => Math.abs(value - 2)))).toBeLessThan(0.6);
  expect(Math.abs(envelope[100]! - 2)).toBeLessThan(0.1);
});
