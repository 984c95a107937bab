// How well effectiveness, lag and delay of the motors' moment are fitted, over seeded simulated flights in order.
import { test } from "vitest";
import { AXES } from "../../src/aircraft/index.ts";
import type { Estimate } from "../../src/detect/evidence.ts";
import { momentResponse } from "../../src/detect/oscillation/moment-response.ts";
import { quantile } from "../../src/signal/index.ts";
import { defineScenario } from "../../src/simulate/index.ts";
import { setUp } from "../../src/simulate/scenario/setup.ts";
import { simulatedFlight } from "../detect/simulated-flight.ts";
import { drawScenario } from "./oscillation-scenarios.ts";

const seeds = Number(process.env.SEEDS ?? 20);
const first = Number(process.env.FIRST ?? 21001);

test("moment response", () => {
  const sizes: Compared[] = [];
  const lags: Compared[] = [];
  let stuck = 0;
  for (let seed = first; seed < first + seeds; seed++) {
    const input = drawScenario("healthy", seed);
    const { vehicle } = setUp(defineScenario(input));
    const { flight, truth } = simulatedFlight(input);
    const moved = truth.sticks[0]!.axis as "roll" | "pitch";
    const response = momentResponse(flight, moved, []);
    if (response === null) {
      stuck++;
      continue;
    }
    sizes.push(compared(response.effectiveness!, 1 / vehicle.inertia[AXES.indexOf(moved)]!));
    lags.push(compared(response.lag, input.aircraft!.thrust.timeConstant!.value));
  }
  console.log(`\n${seeds} flights with a stick step or doublet, ${stuck} without a fit on its axis\n`);
  console.log("| quantity | fits | 95 % interval holds it | median error | 95th percentile | median half-width |");
  console.log("| --- | --- | --- | --- | --- | --- |");
  for (const [name, all] of Object.entries({ effectiveness: sizes, "motor lag": lags })) {
    const of = (get: (one: Compared) => number, share: number) =>
      `${(100 * quantile(Float64Array.from(all, get), share)).toFixed(1)} %`;
    const held = all.filter(({ isHeld }) => isHeld).length;
    console.log(
      `| ${name} | ${all.length} | ${held} | ${of(({ error }) => error, 0.5)} | ${of(({ error }) => error, 0.95)} | ${of(({ reach }) => reach, 0.5)} |`,
    );
  }
});

/** Error and half-width over the truth. */
interface Compared {
  readonly error: number;
  readonly reach: number;
  readonly isHeld: boolean;
}

const compared = ({ value, low, high }: Estimate, truth: number): Compared => ({
  error: Math.abs(value / truth - 1),
  reach: (high! - low!) / 2 / truth,
  isHeld: low! <= truth && truth <= high!,
});
