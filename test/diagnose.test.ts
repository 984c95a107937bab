import { readFileSync } from "node:fs";
import { join } from "node:path";
import { Ajv2020 } from "ajv/dist/2020.js";
import { describe, expect, test } from "vitest";
import { diagnose, diagnosisJsonSchema, VERSION } from "../src/index.ts";
import { realFlights } from "./support/index.ts";

const root = join(import.meta.dirname, "..");

test("the version is that of the package", () => {
  expect(VERSION).toBe(JSON.parse(readFileSync(join(root, "package.json"), "utf8")).version);
});

test("the same log gives the same diagnosis, byte for byte", async () => {
  const sample = join(root, "data-samples/hover-check/flight");
  const options = { channels: `${sample}.channels.yaml`, aircraft: `${sample}.aircraft.yaml`, at: new Date(0) };
  const first = await diagnose(`${sample}.csv.gz`, options);
  const second = await diagnose(`${sample}.csv.gz`, options);
  expect(JSON.stringify(second.diagnosis)).toBe(JSON.stringify(first.diagnosis));
});

test("columns are told as matched by their names where no channel map says what they are, and only there", async () => {
  const sample = join(root, "data-samples/hover-check/flight");
  const options = { aircraft: `${sample}.aircraft.yaml`, to: 12 };
  const mapped = await diagnose(`${sample}.csv.gz`, { ...options, channels: `${sample}.channels.yaml` });
  const guessed = await diagnose(`${sample}.csv.gz`, options);
  expect(mapped.diagnosis.log.matches).toEqual([]);
  expect(guessed.diagnosis.log.matches.length).toBeGreaterThan(10);
});

test("a stretch asked for keeps the log's own clock", async () => {
  const sample = join(root, "data-samples/long-boom/flight");
  const options = {
    channels: `${sample}.channels.yaml`,
    aircraft: `${sample}.aircraft.yaml`,
    from: 240,
    to: 280,
    falseAlarms: 1,
  };
  const { diagnosis } = await diagnose(`${sample}.csv.gz`, options);
  expect(diagnosis.run.options).toMatchObject({ from: 240, to: 280, falseAlarms: 1 });
  expect(diagnosis.findings.length).toBeGreaterThan(0);
  for (const { start, end } of diagnosis.findings) {
    expect(start).toBeGreaterThanOrEqual(240);
    expect(end).toBeLessThanOrEqual(280.1);
  }
});

interface Truth {
  readonly file: string;
  readonly channels: string;
  readonly aircraft: string;
}

describe.skipIf(realFlights === null)("real flights, end to end", () => {
  const inFolder = (name: string) => join(realFlights!, name);
  const truth = (): Truth[] => JSON.parse(readFileSync(inFolder("truth.json"), "utf8"));
  const validate = new Ajv2020({ strict: false, validateFormats: false }).compile(diagnosisJsonSchema());
  const run = ({ file, channels, aircraft }: Truth) =>
    diagnose(inFolder(file), { channels: inFolder(channels), aircraft: inFolder(aircraft) });

  test("all give a diagnosis that fits the schema, with shares at the limit that equal a direct count", async () => {
    const flights = truth();
    expect(flights.length).toBe(174);
    for (const flight of flights) {
      const { diagnosis, flight: seen } = await run(flight);
      expect(validate(JSON.parse(JSON.stringify(diagnosis))), JSON.stringify(validate.errors)).toBe(true);
      for (const { name, series } of seen.log.channels.values()) {
        const motor = Number(/^motor\.(\d+)\.command$/.exec(name)?.[1]);
        if (Number.isNaN(motor)) continue;
        const flown = [...series.time.keys()].filter((i) =>
          seen.airborne.some(({ start, end }) => series.time[i]! >= start && series.time[i]! <= end),
        );
        const share = (isAtLimit: (command: number) => boolean) =>
          flown.filter((i) => isAtLimit(series.values[i]!)).length / flown.length;
        const found = (kind: string) => {
          const finding = diagnosis.findings.find((one) => one.kind === kind && one.motor === motor);
          return (finding?.measures.share as { value: number } | undefined)?.value ?? 0;
        };
        expect(found("motor-saturation"), `${flight.file} ${motor}`).toBeCloseTo(
          share((command) => command >= 65535),
          9,
        );
        expect(found("motor-floor"), `${flight.file} ${motor}`).toBeCloseTo(
          share((command) => command <= 0),
          9,
        );
      }
    }
  }, 300_000);

  test("with the heavy weight near motor 3, motor 3 is at its ceiling and no other motor is worse", async () => {
    const heavy = truth().filter(({ file }) => file.includes("motors-e9-add-weight-w3-near-m3"));
    expect(heavy.length).toBe(3);
    for (const flight of heavy) {
      const { diagnosis } = await run(flight);
      const worst = diagnosis.findings
        .filter(({ kind }) => kind === "motor-saturation")
        .sort((a, b) => numberOf(b.measures.share) - numberOf(a.measures.share))[0];
      expect(worst).toMatchObject({ motor: 3, severity: "warning" });
      const least = diagnosis.findings
        .filter(({ kind }) => kind === "motor-headroom")
        .sort((a, b) => numberOf(a.measures.above) - numberOf(b.measures.above))[0];
      expect(least!.motor).toBe(3);
    }
  });

  test("an undamaged aircraft has no motor on its floor", async () => {
    for (const flight of truth().filter(({ file }) => file.includes("motors-e9-undamaged"))) {
      const { diagnosis } = await run(flight);
      expect(diagnosis.findings.filter(({ kind }) => kind === "motor-floor")).toEqual([]);
    }
  });

  test("the frozen end of the lost flight is told and left out", async () => {
    const { diagnosis } = await run(truth().find(({ file }) => file.endsWith("flight-28.csv"))!);
    const frozen = diagnosis.findings.find(({ measures }) => measures.stuck !== undefined)!;
    expect(frozen).toMatchObject({ kind: "data-quality", severity: "caution" });
    for (const { kind, end } of diagnosis.findings)
      if (kind !== "data-quality") expect(end).toBeLessThanOrEqual(frozen.start);
  });
});

const numberOf = (measure: unknown) => (measure as { value: number }).value;
