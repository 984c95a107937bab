import { expect, test } from "vitest";
import { oscillation } from "../../../src/detect/index.ts";
import { buildFlight } from "../../../src/flight/index.ts";
import { randomGenerator } from "../../../src/signal/index.ts";
import { surveyLog } from "../../support/survey-log.ts";

const OMEGA = 2 * Math.PI * 1.5;
/** rad/s, largest at 30 s */
const size = (t: number) => 0.5 * Math.exp(-(((t - 30) / 10) ** 2));

/** A roll that swings at 1.5 Hz; its attitude shows that `share` times as large, and whatever else. */
function angleOf(share: number, besides: (t: number) => number): { angle: number; amplitude: number } {
  const random = randomGenerator(3);
  const flight = buildFlight(
    surveyLog(
      {
        "rate.roll.measured": { unit: "rad/s", of: (t) => size(t) * Math.sin(OMEGA * t) + 0.01 * random.gaussian() },
        "attitude.roll.measured": {
          unit: "rad",
          of: (t) => (-share * size(t) * Math.cos(OMEGA * t)) / OMEGA + besides(t),
        },
      },
      { rate: 100 },
    ),
    null,
  );
  const [{ measures }] = oscillation.detect(flight) as [ReturnType<typeof oscillation.detect>[number]];
  return { angle: measures.angle!.value, amplitude: measures.amplitude!.value };
}

test("the angle is the attitude's own where rate and attitude tell of one swing", () => {
  const { angle, amplitude } = angleOf(1.2, () => 0);
  expect(angle / (1.2 * (amplitude / OMEGA))).toBeCloseTo(1, 1);
});

test("a leap of the attitude elsewhere in the swing is no part of its angle", () => {
  const { angle, amplitude } = angleOf(1, (t) => (t > 22 && t < 22.4 ? 0.6 : 0));
  expect(angle / (amplitude / OMEGA)).toBeCloseTo(1, 1);
});

test("an angle that the frequency does not allow gives way to the one that belongs to the rate", () => {
  const leapt = angleOf(1, (t) => (t > 29.9 && t < 30.3 ? 0.6 : 0));
  expect(leapt.angle).toBeCloseTo(leapt.amplitude / OMEGA, 4);
  const faint = angleOf(0.3, () => 0);
  expect(faint.angle).toBeCloseTo(faint.amplitude / OMEGA, 4);
});
