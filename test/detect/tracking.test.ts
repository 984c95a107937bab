import { expect, test } from "vitest";
import { tracking } from "../../src/detect/index.ts";
import { buildFlight } from "../../src/flight/index.ts";
import { surveyLog } from "../support/survey-log.ts";

/** A set point that moves at two frequencies which share no period, so that its delay is not ambiguous. */
const asked = (t: number) => 0.3 * Math.sin(2 * Math.PI * 0.7 * t) + 0.2 * Math.sin(2 * Math.PI * 1.9 * t + 1);

const flightOf = (measured: (t: number) => number, gaps: { start: number; end: number }[] = []) =>
  buildFlight(
    surveyLog(
      {
        "rate.pitch.measured": { unit: "rad/s", of: measured },
        "rate.pitch.setpoint": { unit: "rad/s", of: asked },
      },
      { rate: 100, gaps },
    ),
    null,
  );

test("a response that lags by 40 ms is told so, and its error is that of the lag", () => {
  const [pitch] = tracking.detect(flightOf((t) => asked(t - 0.04)));
  expect(pitch!.measures.delay!.value).toBeCloseTo(0.04, 3);
  // rms of a sine against itself delayed: A sqrt(2) sin(w tau / 2), summed in squares.
  const part = (a: number, f: number) => (a * Math.SQRT2 * Math.sin(Math.PI * f * 0.04)) ** 2;
  expect(pitch!.measures.rms!.value).toBeCloseTo(Math.sqrt(part(0.3, 0.7) + part(0.2, 1.9)), 3);
});

test("a delay that is not the same all flight has an interval as wide as that", () => {
  const [pitch] = tracking.detect(flightOf((t) => asked(t - 0.06 - 0.02 * Math.sin(t / 15))));
  const { value, low, high } = pitch!.measures.delay!;
  expect(value).toBeGreaterThan(0.05);
  expect(value).toBeLessThan(0.07);
  expect(high! - low!).toBeGreaterThan(0.01);
  expect(high! - low!).toBeLessThan(0.04);
  const [same] = tracking.detect(flightOf((t) => asked(t - 0.06)));
  expect(same!.measures.delay!.high! - same!.measures.delay!.low!).toBeLessThan(0.002);
});

test("a record of a few samples places no delay", () => {
  const flight = buildFlight(
    surveyLog(
      {
        "rate.pitch.measured": { unit: "rad/s", of: (t) => asked(t - 0.1) },
        "rate.pitch.setpoint": { unit: "rad/s", of: asked },
      },
      { rate: 5, duration: 5 },
    ),
    null,
  );
  expect(tracking.detect(flight)[0]!.measures.delay).toBeUndefined();
});

test("a lasting offset is the bias, and its interval holds it", () => {
  const [pitch] = tracking.detect(flightOf((t) => asked(t) + 0.05));
  const { bias } = pitch!.measures;
  expect(bias!.value).toBeCloseTo(0.05, 6);
  expect(bias!.low!).toBeLessThanOrEqual(0.05 + 1e-9);
  expect(bias!.high!).toBeGreaterThanOrEqual(0.05 - 1e-9);
});

test("nothing is computed across a gap: wild samples beside it would not be hidden by interpolation", () => {
  const [pitch] = tracking.detect(flightOf(asked, [{ start: 20, end: 30 }]));
  expect(pitch!.measures.rms!.value).toBeCloseTo(0, 9);
});

test("set point and response at different rates are compared on the response's own times", () => {
  const flight = buildFlight(
    surveyLog({
      "rate.roll.measured": { unit: "rad/s", rate: 100, of: (t) => t / 60 },
      "rate.roll.setpoint": { unit: "rad/s", rate: 10, of: (t) => t / 60 },
    }),
    null,
  );
  const [roll] = tracking.detect(flight);
  expect(roll!.measures.rms!.value).toBeCloseTo(0, 12);
});

test("angles are compared on the circle", () => {
  const flight = buildFlight(
    surveyLog({
      "attitude.yaw.measured": { unit: "rad", of: () => Math.PI - 0.01 },
      "attitude.yaw.setpoint": { unit: "rad", of: () => -Math.PI + 0.01 },
    }),
    null,
  );
  expect(tracking.detect(flight)[0]!.measures.p95!.value).toBeCloseTo(0.02, 9);
});

test("a log with a sample every 2.5 s has an error with an interval", () => {
  const channel = (of: (t: number) => number) => ({ unit: "rad", rate: 0.4, of });
  const flight = buildFlight(
    surveyLog({
      "attitude.roll.measured": channel((t) => 0.1 * Math.sin(t) + 0.02 * Math.cos(3 * t)),
      "attitude.roll.setpoint": channel((t) => 0.1 * Math.sin(t)),
    }),
    null,
  );
  const { rms } = tracking.detect(flight)[0]!.measures;
  expect(rms!.value).toBeCloseTo(0.02 / Math.SQRT2, 3);
  expect(rms!.low).toBeLessThan(rms!.value);
  expect(rms!.high).toBeGreaterThan(rms!.value);
});

test("a set point at rest places no delay", () => {
  const flight = buildFlight(
    surveyLog({
      "attitude.roll.measured": { unit: "rad", of: (t) => 0.01 * Math.sin(t) },
      "attitude.roll.setpoint": { unit: "rad", of: () => 0 },
    }),
    null,
  );
  expect(tracking.detect(flight)[0]!.measures.delay).toBeUndefined();
});

test("without a pair of set point and response it says which channels it needs", () => {
  const flight = buildFlight(surveyLog({ "rate.roll.measured": { of: () => 0 } }), null);
  expect(tracking.missing(flight)).toEqual(["rate.AXIS.measured", "rate.AXIS.setpoint"]);
});
