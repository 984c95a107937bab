import { describe, expect, test } from "vitest";
import {
  airSpeeds,
  type ComparedFlights,
  compare,
  type FlownCondition,
  flownConditions,
  type JudgedRow,
} from "../../src/compare/index.ts";
import type { Flight } from "../../src/flight/index.ts";
import { flyMission, LONGER_BOOM } from "./simulated-pair.ts";

const SPEEDS = [6, 9, 12];
const windy = { speed: 4.5, from: 65 };

describe("steady wind of half the leg speed, in gusts", () => {
  const still = (faults: readonly (typeof LONGER_BOOM)[] = []) =>
    flyMission({ seed: 1, speeds: SPEEDS, gusts: 0, faults, seconds: 8 });
  const before = [11, 12].map((seed) => flyMission({ seed, speeds: SPEEDS, seconds: 8 }));
  const after = [21, 22].map((seed) =>
    flyMission({ seed, speeds: SPEEDS, wind: windy, faults: [LONGER_BOOM], seconds: 8 }),
  );

  test("the wind is found from the lean, and not looked for where the attitude is not logged", () => {
    const replicates = (flight: Flight) =>
      flownConditions(flight).flatMap((condition: FlownCondition) => condition.replicates);
    const found = airSpeeds(after[0]!, replicates(after[0]!))!;
    const blows = {
      north: -windy.speed * Math.cos((65 * Math.PI) / 180),
      east: -windy.speed * Math.sin((65 * Math.PI) / 180),
    };
    expect(found.by).toBe("lean");
    expect(Math.hypot(found.wind!.north - blows.north, found.wind!.east - blows.east)).toBeLessThan(1);
    const blind = { ...after[0]!, log: { ...after[0]!.log, channels: new Map(after[0]!.log.channels) } };
    blind.log.channels.delete("attitude.pitch.measured");
    expect(airSpeeds(blind, replicates(blind))).toBeNull();
  });

  test("the power ratio's bias stays under 2 %, where plain averaging of legs up and down misses it", () => {
    const power = (pair: ReturnType<typeof compare>): number[] => {
      if (pair.kind !== "compared") throw new Error("refused");
      return (pair as ComparedFlights).tables.power
        .filter((row: JudgedRow) => row.condition.startsWith("step"))
        .map((row) => {
          if (row.kind !== "compared") throw new Error("not enough data");
          return row.difference.value;
        });
    };
    const mean = (lists: readonly number[][]) =>
      lists[0]!.map((_, k) => lists.reduce((sum, list) => sum + list[k]!, 0) / lists.length);
    const truth = power(compare(still(), still([LONGER_BOOM])));
    const corrected = mean(before.map((flight, k) => power(compare(flight, after[k]!))));
    const plain = mean(before.map((flight, k) => plainRatios(flight, after[k]!)));
    const bias = (values: readonly number[]) =>
      values.reduce((sum, value, k) => sum + value - truth[k]!, 0) / truth.length;
    expect(Math.abs(bias(corrected))).toBeLessThan(0.02);
    expect(Math.abs(bias(plain))).toBeGreaterThan(0.03);
  });
});

/** Mean power of the legs up and down, after over before less 1, step by step. */
function plainRatios(before: Flight, after: Flight): number[] {
  const pair = compare(before, after);
  if (pair.kind !== "compared") throw new Error("refused");
  return pair.pairs
    .filter(({ before: one }) => one.kind === "cruise")
    .map(({ before: one, after: other }) => {
      const mean = (flight: ComparedFlights["before"], legs: FlownCondition["replicates"]) =>
        legs.reduce((sum, leg) => sum + flight.valueOf("power", leg)!, 0) / legs.length;
      return mean(pair.after, other.replicates) / mean(pair.before, one.replicates) - 1;
    });
}
