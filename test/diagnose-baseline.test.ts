import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { diagnose } from "../src/diagnose.ts";
import { diagnosisSchema } from "../src/findings/index.ts";
import { realFlights, temporaryFolder } from "./support/index.ts";

const folder = temporaryFolder();

describe.skipIf(realFlights === null)("diagnose with a baseline", () => {
  const inFolder = (name: string) => join(realFlights ?? "", "propellers", name);
  const log = inFolder("motors-e9-cut-m3-2mm-1.5mm-43.5mm-1.csv.gz");
  const baseline = inFolder("motors-e9-undamaged-1.csv.gz");
  const channels = inFolder("motors.channels.yaml");
  const aircraft = inFolder("nano.aircraft.yaml");

  test("names the baseline with its checksum and the motor that changed, before and after", async () => {
    const { diagnosis, charts } = await diagnose(log, { channels, aircraft, baseline });
    expect(diagnosisSchema.safeParse(diagnosis).success).toBe(true);
    expect(diagnosis.run.baseline).toMatchObject({ file: baseline, sha256: expect.stringMatching(/^[0-9a-f]{64}$/) });
    const found = diagnosis.findings.find(({ kind }) => kind === "thrust-imbalance")!;
    expect(found).toMatchObject({ pattern: "single-motor", motor: 3 });
    expect(found.summary).toMatch(/Motor 3 \(rear left\) is asked for .* more thrust than in the baseline flight/);
    expect(found.charts).toEqual(["above", "before-after", "by-phase"].map((part) => `${found.id}-${part}`));
    expect(charts.map(({ id }) => id)).toEqual(expect.arrayContaining(found.charts));
  });

  test("without an aircraft file there is nothing to compare by, and it says what to give", async () => {
    await expect(diagnose(log, { channels, baseline })).rejects.toThrow(/--aircraft/);
  });

  test("a baseline without motor commands is refused with its place", async () => {
    const control = inFolder("control-e9-undamaged-1.csv.gz");
    const baselineChannels = inFolder("control.channels.yaml");
    await expect(diagnose(log, { channels, aircraft, baseline: control, baselineChannels })).rejects.toThrow(
      /no motor command in the baseline/,
    );
  });

  test("the baseline's own aircraft file holds for it: a layout of its own is told and not compared", async () => {
    const text = readFileSync(aircraft, "utf8").replace(
      "spin: ccw, label: front right",
      "spin: cw, label: front right",
    );
    const baselineAircraft = folder.write("other.aircraft.yaml", text);
    const { diagnosis } = await diagnose(log, { channels, aircraft, baseline, baselineAircraft });
    const refused = diagnosis.notExamined.find(({ kind }) => kind === "thrust-imbalance");
    expect(refused?.why).toMatch(/two aircraft files do not agree/);
    expect(diagnosis.run.baselineAircraft).toEqual({
      file: baselineAircraft,
      sha256: expect.stringMatching(/^[0-9a-f]{64}$/),
    });
    await expect(diagnose(log, { channels, aircraft, baselineAircraft })).rejects.toThrow(/give --baseline/);
  });
});
