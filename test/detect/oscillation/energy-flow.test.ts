import { expect, test } from "vitest";
import { bandMotion } from "../../../src/detect/oscillation/band-motion.ts";
import { energyFlow } from "../../../src/detect/oscillation/energy-flow.ts";
import type { ModeMeasures } from "../../../src/detect/oscillation/mode-measures.ts";
import { numbers } from "../../support/index.ts";

const [RATE, FREQUENCY, COUNT] = [100, 2, 2000];
const OMEGA = 2 * Math.PI * FREQUENCY;

/** A rate of constant size, with only what `energyFlow` reads of a mode. */
function swing(): ModeMeasures {
  const values = numbers(COUNT, (i) => 0.5 * Math.sin((OMEGA * i) / RATE));
  const band = bandMotion(values, RATE, FREQUENCY);
  const frequency = { value: FREQUENCY, unit: "Hz" };
  return { band, rate: RATE, frequency, from: 0, to: COUNT, windowStart: 10, amplitude: 0.5 } as ModeMeasures;
}

/** A damping moment -c rate does work -2 pi c / omega of the kinetic energy in a cycle (closed form). */
test("a damper takes out 2 pi c / omega a cycle, and puts it in once its sign is changed", () => {
  const c = 0.4;
  const values = numbers(COUNT, (i) => (i < COUNT * 0.6 ? -1 : 1) * c * 0.5 * Math.sin((OMEGA * i) / RATE));
  // Over all, the damper wins: the moment comes half a turn after the rate, the acceleration a quarter before it.
  const share = { value: (0.2 * c) / OMEGA, unit: "1" };
  const phase = { value: -Math.PI / 2, unit: "rad" };
  const drive = { phase, share, unexplained: null, energy: null, coherence: 1 };
  const flow = energyFlow(swing(), { from: "motors", values, effect: { value: 1, factor: 1 }, interval: 0.01 }, drive)!;
  const at = (time: number) => flow.work[flow.time.findIndex((t) => t >= time)]!;
  expect(at(14) / ((-2 * Math.PI * c) / OMEGA)).toBeCloseTo(1, 1);
  expect(at(27) / ((2 * Math.PI * c) / OMEGA)).toBeCloseTo(1, 1);
  expect(flow.time.length).toBeLessThanOrEqual(240);
});

test("a moment of unknown size has no flow", () => {
  const phase = { value: 0, unit: "rad" };
  const drive = { phase, share: null, unexplained: null, energy: null, coherence: 1 };
  expect(
    energyFlow(swing(), { from: "output", values: new Float64Array(COUNT), effect: null, interval: 0.01 }, drive),
  ).toBeNull();
});
