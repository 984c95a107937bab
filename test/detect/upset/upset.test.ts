import { expect, test } from "vitest";
import { upset } from "../../../src/detect/index.ts";
import { buildFlight } from "../../../src/flight/index.ts";
import { surveyLog } from "../../support/survey-log.ts";

/** A kick that turns by half a radian and back: the rate is a doublet of two half sines. */
const kick = (t: number, at: number, peak: number) =>
  t < at || t > at + 0.5 ? 0 : peak * Math.sin((2 * Math.PI * (t - at)) / 0.5);

const calm = (t: number) => 0.02 * Math.sin(3 * t) + 0.01 * Math.sin(17 * t);

const flightOf = (rate: (t: number) => number, angle: (t: number) => number, asked: (t: number) => number) =>
  buildFlight(
    surveyLog(
      {
        "rate.roll.measured": { unit: "rad/s", of: rate },
        "attitude.roll.measured": { unit: "rad", of: angle },
        "attitude.roll.setpoint": { unit: "rad", of: asked },
      },
      { rate: 100, duration: 30 },
    ),
    null,
  );

test("a kick that nothing asked for is an upset with its time, peak rate and angle, recovered", () => {
  const angle = (t: number) =>
    t < 12 || t > 12.5 ? 0 : (4 * 0.5 * (1 - Math.cos((2 * Math.PI * (t - 12)) / 0.5))) / (2 * Math.PI);
  const [found, ...others] = upset.detect(
    flightOf(
      (t) => calm(t) + kick(t, 12, 4),
      angle,
      () => 0,
    ),
  );
  expect(others).toEqual([]);
  expect(Math.abs(found!.start - 12)).toBeLessThan(0.1);
  expect(found!.measures.rate!.value).toBeCloseTo(4, 1);
  expect(found!.measures.angle!.value).toBeCloseTo(4 / (2 * Math.PI), 2);
  expect(found!.recovery!).toBeLessThan(0.6);
  expect(found!.jumpAt).toBeNull();
});

test("the same turn is silent where the set point asked for it", () => {
  const angle = (t: number) =>
    t < 12 || t > 12.5 ? 0 : (4 * 0.5 * (1 - Math.cos((2 * Math.PI * (t - 12)) / 0.5))) / (2 * Math.PI);
  expect(
    upset.detect(
      flightOf(
        (t) => calm(t) + kick(t, 12, 4),
        angle,
        (t) => angle(t + 0.05),
      ),
    ),
  ).toEqual([]);
});

test("a jump of the set point is named as what came before, not taken for an order", () => {
  const angle = (t: number) => (t < 12 || t > 12.5 ? 0 : 0.6);
  const [found] = upset.detect(
    flightOf(
      (t) => calm(t) + kick(t, 12, 4),
      angle,
      (t) => (t < 11.95 || t > 12.6 ? 0 : 0.9),
    ),
  );
  expect(found!.jumpAt).toBeCloseTo(11.95, 2);
});

test("a tumble that the log ends in is not recovered", () => {
  const [found] = upset.detect(
    flightOf(
      (t) => calm(t) + (t < 28 ? 0 : Math.min(12, 20 * (t - 28))),
      (t) => (t < 28 ? 0 : Math.min(3, 10 * (t - 28) ** 2)),
      () => 0,
    ),
  );
  expect(found!.recovery).toBeNull();
  expect(found!.measures.angle!.value).toBeCloseTo(3, 1);
});

test("a calm flight is silent", () => {
  expect(
    upset.detect(
      flightOf(
        calm,
        () => 0,
        () => 0,
      ),
    ),
  ).toEqual([]);
});

/** A set point made from the motion: it jumps by 1 rad in one row and then swings against what the aircraft does. */
const jumped = (t: number) => (t < 7 || t > 8.6 ? 0 : Math.cos(10 * (t - 7)) * Math.exp(-1.5 * (t - 7)));
/** rad/s; the axis answers with a swing that takes up more than a tenth of a short flight */
const answer = (t: number) => (t < 7.05 || t > 8.6 ? 0 : 16 * Math.sin(12 * (t - 7.05)) * Math.exp(-1.5 * (t - 7.05)));

const shortFlight = (asked: (t: number) => number, rate: (t: number) => number) =>
  buildFlight(
    surveyLog(
      {
        "rate.roll.measured": { unit: "rad/s", of: (t) => calm(t) + rate(t) },
        "attitude.roll.measured": { unit: "rad", of: (t) => rate(t) / 16 },
        "attitude.roll.setpoint": { unit: "rad", of: asked },
      },
      { rate: 100, duration: 13 },
    ),
    null,
  );

test("a jump in one row excuses neither the set point's swing after it nor a short flight's fastest tenth", () => {
  const [found, ...others] = upset.detect(shortFlight(jumped, answer));
  expect(others).toEqual([]);
  expect(found!.start).toBeGreaterThan(7);
  expect(found!.start).toBeLessThan(7.2);
  expect(found!.jumpAt).toBeCloseTo(7, 2);
  expect(found!.measures.jump!.value).toBeCloseTo(1, 2);
});

test("the same swing is asked for where the set point comes to it without a jump", () => {
  const order = (t: number) => jumped(t) * Math.min(1, Math.max(0, (t - 7) / 0.4));
  expect(upset.detect(shortFlight(order, (t) => answer(t) * Math.min(1, Math.max(0, (t - 7) / 0.4)) * 0.7))).toEqual(
    [],
  );
});
