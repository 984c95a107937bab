import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { diagnose } from "../../../src/diagnose.ts";
import { realFlights } from "../../support/index.ts";

interface Known {
  readonly file: string;
  readonly channels: string;
  readonly aircraft: string;
  readonly condition: string;
  readonly axis?: string;
  readonly frequency?: number;
}

const known: readonly Known[] =
  realFlights === null ? [] : (JSON.parse(readFileSync(join(realFlights, "truth.json"), "utf8")) as Known[]);
const tuning = known.filter(({ file }) => file.startsWith("tuning/"));

async function findingsOf({ file, channels, aircraft }: Known) {
  const at = (name: string) => join(realFlights!, name);
  const { diagnosis } = await diagnose(at(file), { channels: at(channels), aircraft: at(aircraft) });
  return diagnosis.findings;
}

const isLoud = ({ severity }: { severity: string }) => severity === "caution" || severity === "warning";

describe.skipIf(realFlights === null)("tuning flights", () => {
  test.each(tuning.filter(({ condition }) => condition === "unstable"))(
    "$file oscillates on $axis at $frequency Hz, at caution or above",
    async (flight) => {
      const found = (await findingsOf(flight)).find(
        ({ kind, axis, severity }) => kind === "oscillation" && axis === flight.axis && isLoud({ severity }),
      );
      const frequency = found!.measures.frequency as { value: number };
      expect(Math.abs(frequency.value / flight.frequency! - 1)).toBeLessThan(0.08);
      expect(found!.driver).not.toBe("external");
      expect(found!.driver).not.toBe("commanded");
      // In none of these flights does the rate set point of that axis swing by a hundredth of what an attitude loop asks.
      if (flight.axis === "pitch") expect(found!.loop).not.toBe("rate");
    },
  );

  test.each(tuning.filter(({ condition }) => condition === "steady"))("$file is silent", async (flight) => {
    const loud = (await findingsOf(flight))
      .filter(({ kind }) => kind === "oscillation" || kind === "upset")
      .filter(isLoud);
    expect(loud).toEqual([]);
  });

  test("flight-28: the tumble is an upset, found before the log freezes, and not recovered", async () => {
    const findings = await findingsOf(tuning.find(({ file }) => file.includes("flight-28"))!);
    const frozen = findings.find(({ channel, measures }) => channel === "all" && measures.stuck !== undefined)!;
    const upsets = findings.filter(({ kind }) => kind === "upset");
    expect(upsets.length).toBeGreaterThan(0);
    for (const { start, severity, summary } of upsets) {
      expect(Math.abs(start - 7.2)).toBeLessThan(0.5);
      expect(start).toBeLessThan(frozen.start);
      expect(severity).toBe("warning");
      expect(summary).toContain("was not recovered");
    }
  });

  test("flight-22: the kick at 7 s is an upset that was recovered; the set point had jumped", async () => {
    const findings = await findingsOf(tuning.find(({ file }) => file.includes("flight-22"))!);
    const [upset] = findings.filter(({ kind }) => kind === "upset");
    expect(Math.abs(upset!.start - 7)).toBeLessThan(0.3);
    expect(upset!.summary).toContain("It was recovered");
    expect(upset!.summary).toContain("set point had jumped");
  });

  test("flight-26: the kick in the midst of its oscillation is an upset, and no part of the swing", async () => {
    const findings = await findingsOf(tuning.find(({ file }) => file.includes("flight-26"))!);
    const [upset] = findings.filter(({ kind }) => kind === "upset");
    expect(upset!.axis).toBe("roll");
    expect(Math.abs(upset!.start - 7)).toBeLessThan(0.1);
    expect(upset!.severity).toBe("warning");
    // The column "roll demand" goes from 0.0133 to 1.0721 rad in the row of 6.9864 s.
    expect(upset!.summary).toContain("set point had jumped by 60.7 deg from one sample to the next at 7.0 s");
    // Its rate set points move by 0.0003 and 0.0005 rad/s while the axes turn at up to 16 rad/s: they tell of no loop.
    const swings = findings.filter(({ kind }) => kind === "oscillation");
    expect(swings.map(({ loop }) => loop)).not.toContain("rate");
    expect(findings.some(({ kind, loop, axis }) => kind === "tracking" && loop === "rate" && axis !== "yaw")).toBe(
      false,
    );
    for (const { measures } of swings) {
      const [angle, rate, hertz] = ["angle", "amplitude", "frequency"].map(
        (name) => (measures[name] as { value: number }).value,
      );
      const ratio = angle! / (rate! / (2 * Math.PI * hertz!));
      expect(ratio).toBeGreaterThan(1 / 1.5);
      expect(ratio).toBeLessThan(1.5);
    }
  });
});

describe.skipIf(realFlights === null)("propeller flights", () => {
  test.each(known.filter(({ file, condition }) => file.includes("/control-") && condition === "undamaged"))(
    "$file has no oscillation at caution or above",
    async (flight) => {
      expect((await findingsOf(flight)).filter(({ kind }) => kind === "oscillation").filter(isLoud)).toEqual([]);
    },
  );
});
