import { readdir, readFile, stat } from "node:fs/promises";
import { join } from "node:path";
import { gzipSync } from "node:zlib";
import { describe, expect, test } from "vitest";
import { builtInScenario, readScenario, simulate, type Truth, truthSchema } from "../../src/simulate/index.ts";
import { csvText } from "../../src/simulate/record/csv.ts";

const folder = join(import.meta.dirname, "../../data-samples");
const names = ["short-boom", "long-boom", "hover-check", "gusty-day"];
const truthOf = async (name: string): Promise<Truth> =>
  truthSchema.parse(JSON.parse(await readFile(join(folder, name, "truth.json"), "utf8")));

test("the samples together are under 3 MB", async () => {
  let bytes = 0;
  for (const name of names) {
    for (const file of await readdir(join(folder, name))) bytes += (await stat(join(folder, name, file))).size;
  }
  expect(bytes).toBeLessThan(3e6);
});

test.each(names)("%s is flown by the scenario beside it, which is the built-in one", async (name) => {
  expect(await readScenario(join(folder, name, "scenario.yaml"))).toEqual(builtInScenario(name));
});

test("hover-check is flown again to the same bytes", async () => {
  const again = simulate(await readScenario(join(folder, "hover-check", "scenario.yaml")));
  const stored = await readFile(join(folder, "hover-check", "flight.csv.gz"));
  expect(gzipSync(csvText(again.log), { level: 9 }).equals(stored)).toBe(true);
});

describe("the stories are true", () => {
  test("long-boom: a growing pitch oscillation in the fourth speed step, motor 4 on its floor, pitch winds up", async () => {
    const truth = await truthOf("long-boom");
    const boom = truth.faults.find(({ kind }) => kind === "boom")!;
    const fourth = truth.phases.find(({ step }) => step === 4)!;
    expect(boom.axis).toBe("pitch");
    expect(boom.trend).toBe("growing");
    expect(boom.visible).toBeGreaterThan(fourth.start - 6);
    expect(boom.visible).toBeLessThan(fourth.end);
    expect(truth.limits.map(({ motor, limit }) => `${motor} ${limit}`)).toEqual(["4 floor"]);
    expect(truth.windups.map(({ axis }) => axis)).toContain("pitch");
    expect(truth.crash).toBeNull();
  });

  test("hover-check: two motors at fault, none at a limit", async () => {
    const truth = await truthOf("hover-check");
    expect(truth.faults.map(({ kind, motor }) => `${kind} ${motor}`)).toEqual(["weak-motor 2", "motor-tilt 4"]);
    expect(truth.limits).toEqual([]);
  });

  test.each(["short-boom", "gusty-day"])("%s: no fault, no motor at a limit, no wind-up", async (name) => {
    const { faults, limits, windups, crash } = await truthOf(name);
    expect({ faults, limits, windups, crash }).toEqual({ faults: [], limits: [], windups: [], crash: null });
  });
});
