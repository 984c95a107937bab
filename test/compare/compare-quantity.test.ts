import { expect, test } from "vitest";
import { type ComparedRow, compareQuantity, type MeasuredCondition, type Quantity } from "../../src/compare/index.ts";
import { changeWords } from "../../src/findings/comparison/index.ts";

const of = (over: Partial<Quantity>): Quantity => ({
  // a key that the flight-to-flight table does not hold: the interval is that of the legs alone
  key: "made-up",
  table: "power",
  unit: "W",
  scale: "ratio",
  better: "less",
  ...over,
});

const legs = (values: readonly number[]) => values.map((value) => ({ air: null, direction: null, value }));

function condition(before: readonly number[], after: readonly number[], over: Partial<MeasuredCondition> = {}) {
  return { id: "step-1", kind: "cruise" as const, speed: 10, before: legs(before), after: legs(after), ...over };
}

function compared(rows: readonly ComparedRow[]) {
  const [row] = rows;
  if (row?.kind !== "compared") throw new Error("expected an interval");
  return row;
}

test("a mean of 1543 W before and 1170 W after is 24.2 % less (common practice)", () => {
  const shape = [0.99, 1.01, 0.995, 1.005];
  // The legs' geometric mean is put at the value stated.
  const centre = Math.exp(shape.reduce((sum, s) => sum + Math.log(s), 0) / shape.length);
  const around = (mean: number) => shape.map((s) => (mean * s) / centre);
  const row = compared(compareQuantity(of({ key: "power" }), [condition(around(1543), around(1170))]));
  expect(row.before!.value).toBeCloseTo(1543, 6);
  expect(row.after!.value).toBeCloseTo(1170, 6);
  expect(row.difference.value).toBeCloseTo(1170 / 1543 - 1, 9);
  expect(
    changeWords({ quantity: "power", unit: "W", scale: "ratio", difference: { ...row.difference, unit: "1" } }),
  ).toBe("24 % less");
  expect((100 * row.difference.value).toFixed(1)).toBe("-24.2");
});

test("one condition of independent legs gives Welch's interval of the logarithms (SciPy 1.17.1 ttest_ind)", () => {
  const row = compared(
    compareQuantity(of({}), [condition([1543, 1520, 1561, 1549, 1538], [1170, 1182, 1159, 1175, 1166])]),
  );
  expect(row.difference.value).toBeCloseTo(-0.24107195, 8);
  expect(row.difference.low).toBeCloseTo(-0.25076971, 7);
  expect(row.difference.high).toBeCloseTo(-0.23124866, 7);
  expect(row.degreesOfFreedom).toBeCloseTo(7.47182539, 6);
  expect(row.pValue / 1.0234410034585996e-10).toBeCloseTo(1, 4);
  expect(row.before!.low).toBeCloseTo(1523.49054, 3);
  expect(row.before!.high).toBeCloseTo(1561.01942, 3);
  // (t of 0.975 + t of 0.8) standard errors, after Bloom 1995
  expect(row.detectable).toBeCloseTo(0.01793534, 7);
});

test("a term for flight-to-flight change widens the interval and never narrows it", () => {
  const pair = [condition([1500, 1502, 1498, 1501], [1500, 1499, 1501, 1502])];
  const [alone, withTerm] = ["made-up", "power"].map((key) => compared(compareQuantity(of({ key }), pair)).difference);
  expect(withTerm!.high - withTerm!.low).toBeGreaterThan(2 * (alone!.high - alone!.low));
  expect(withTerm!.value).toBeCloseTo(alone!.value, 12);
});

test("command means that fall by 7 and 6 % of the range are told from noise only if the interval says so", () => {
  const quantity = of({ key: "made-up", table: "motors", motor: 1, unit: "1", scale: "difference", better: null });
  for (const [fall, spread, isTold] of [
    [0.07, 0.004, true],
    [0.06, 0.004, true],
    [0.07, 0.08, false],
    [0.06, 0.08, false],
  ] as const) {
    const around = (middle: number) => [-1, 1, -0.6, 0.6].map((step) => middle + step * spread);
    const { difference, pValue } = compared(compareQuantity(quantity, [condition(around(0.5), around(0.5 - fall))]));
    expect(difference.value).toBeCloseTo(-fall, 12);
    expect(difference.low <= 0 && difference.high >= 0).toBe(!isTold);
    expect(pValue < 0.05).toBe(isTold);
  }
});

test("two legs of each of four steps tell their spread together, one leg each tells none", () => {
  const speeds = [4, 7, 10, 14];
  const pairs = speeds.map((speed, k) =>
    condition([100 + k, 102 + k], [110 + k, 112 + k], { id: `step-${k + 1}`, speed }),
  );
  const rows = compareQuantity(of({}), pairs);
  expect(rows.map(({ kind }) => kind)).toEqual(Array(5).fill("compared"));
  expect(rows.at(-1)!.condition).toBe("all-speeds");
  const single = pairs.map((pair) => ({ ...pair, before: pair.before.slice(0, 1), after: pair.after.slice(0, 1) }));
  const poor = compareQuantity(of({}), single);
  expect(poor.map(({ kind }) => kind)).toEqual(Array(4).fill("not-enough-data"));
  expect(poor[0]).toMatchObject({ means: { before: 100, after: 110 } });
});

test("hover pieces that are alike their neighbours give a wider interval than independent ones", () => {
  const wander = Array.from({ length: 12 }, (_, i) => 100 + 5 * Math.sin(i / 3));
  const shuffled = [0, 6, 3, 9, 1, 7, 4, 10, 2, 8, 5, 11].map((i) => wander[i]!);
  const [alike, mixed] = [wander, shuffled].map((values) =>
    compared(compareQuantity(of({}), [condition(values, values, { id: "hover", kind: "hover", speed: 0 })])),
  );
  const width = ({ difference }: typeof alike & object) => difference.high - difference.low;
  expect(width(alike!)).toBeGreaterThan(1.5 * width(mixed!));
});

/** Power of a rotorcraft, roughly: it falls, then rises with the cube (the shape alone matters here). */
const powerAt = (air: number) => 1500 * (1 - 0.02 * air + 0.0012 * air ** 2 + 0.00006 * air ** 3);

test("wind of half the leg speed biases plain averages by several percent and the curve over airspeed by less than 1 %", () => {
  const speeds = [4, 7, 10, 14];
  const wiggle = [1.002, 0.998];
  const pair = (winds: { before: number; after: number }, isAirTold: boolean) =>
    speeds.map((speed, k) => {
      const side = (wind: number, factor: number) =>
        ([1, -1] as const).map((direction, leg) => {
          const air = Math.abs(speed - direction * wind);
          const value = factor * powerAt(air) * wiggle[(k + leg) % 2]!;
          return { air: isAirTold ? air : null, direction: null, value };
        });
      return {
        ...condition([], []),
        id: `step-${k + 1}`,
        speed,
        before: side(winds.before, 1),
        after: side(winds.after, 0.9),
      };
    });
  const winds = { before: 0, after: 5 };
  const errors = (isAirTold: boolean) =>
    compareQuantity(of({ key: "power" }), pair(winds, isAirTold)).map((row) =>
      Math.abs(compared([row]).difference.value - -0.1),
    );
  expect(Math.max(...errors(true))).toBeLessThan(0.01);
  expect(Math.max(...errors(false))).toBeGreaterThan(0.03);
});
