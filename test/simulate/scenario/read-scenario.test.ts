import { mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { readScenario, scenarioJsonSchema, truthJsonSchema } from "../../../src/simulate/index.ts";

let folder = "";
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "fettle-"));
});
afterAll(() => rm(folder, { recursive: true, force: true }));

async function read(text: string) {
  const file = join(folder, "scenario.yaml");
  await writeFile(file, text);
  return readScenario(file);
}

const message = async (text: string) => {
  const error = await read(text).catch((thrown: unknown) => thrown);
  return error instanceof Error ? error.message.replace(folder, "") : "no error";
};

test("an aircraft may be a built-in name, a file beside the scenario, or written out", async () => {
  const rest = "name: a\nmission: [{ do: hover, seconds: 5 }]\n";
  expect((await read(`${rest}aircraft: hexa\n`)).aircraft.motors.length).toBe(6);
  const spelled = `
  name: three
  motors:
    - { x: 0.3, y: -0.2, spin: cw }
    - { x: 0.3, y: 0.2, spin: ccw }
    - { x: -0.3, y: 0, spin: cw }
  command: { unit: us, min: 1000, max: 2000 }
`;
  expect((await read(`${rest}aircraft:${spelled}`)).aircraft.name).toBe("three");
  await writeFile(join(folder, "three.aircraft.yaml"), spelled);
  expect((await read(`${rest}aircraft: three.aircraft.yaml\n`)).aircraft.name).toBe("three");
});

describe("errors name line and key", () => {
  const good = "name: a\naircraft: small-quad\nmission:\n  - { do: hover, seconds: 5 }\n";

  test.each([
    ["an unknown key", `${good}wnd: 3\n`, "/scenario.yaml:5, key wnd"],
    ["an unknown aircraft", good.replace("small-quad", "zeppelin"), "/scenario.yaml:2, key aircraft"],
    ["an unknown task", good.replace("hover", "loop"), "/scenario.yaml:4, key mission.0.do"],
    [
      "a motor that is not there",
      `${good}faults:\n  - { kind: weak-motor, motor: 5, loss: 0.2 }\n`,
      "/scenario.yaml:6, key faults.0.motor: there is no motor 5",
    ],
    [
      "an end before its start",
      `${good}faults:\n  - kind: log-gap\n    start: 5\n    end: 3\n`,
      "/scenario.yaml:8, key faults.0.end",
    ],
    [
      "what is wrong in an aircraft written out",
      "name: a\nmission: [{ do: hover, seconds: 5 }]\naircraft:\n  name: b\n  motors: []\n",
      "/scenario.yaml:5, key motors",
    ],
    ["a mission that begins in the air twice", good.replace("hover, seconds: 5", "aloft, height: 5"), "key mission"],
  ])("%s", async (_, text, expected) => {
    expect(await message(text)).toContain(expected);
  });

  test("a missing file", async () => {
    await expect(readScenario(join(folder, "none.yaml"))).rejects.toThrow("no such file");
  });
});

test("scenario and truth have JSON Schemas (draft 2020-12)", () => {
  for (const schema of [scenarioJsonSchema(), truthJsonSchema()]) {
    expect(schema.$schema).toBe("https://json-schema.org/draft/2020-12/schema");
    expect(schema.type).toBe("object");
  }
});
