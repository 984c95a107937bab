import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { readAircraft } from "../../src/aircraft/index.ts";
import { DETECTORS, type Evidence } from "../../src/detect/index.ts";
import { makeFindings } from "../../src/findings/index.ts";
import { buildFlight } from "../../src/flight/index.ts";
import { loadLog } from "../../src/log/index.ts";
import { realFlights } from "../support/index.ts";

interface Flight {
  readonly file: string;
  readonly channels: string;
  readonly aircraft: string;
  readonly condition: string;
}

async function evidenceOf({ file, channels, aircraft }: Flight): Promise<Evidence[]> {
  const inFolder = (name: string) => join(realFlights!, name);
  const log = await loadLog(inFolder(file), { channels: inFolder(channels) });
  const flight = buildFlight(log, await readAircraft(inFolder(aircraft)));
  return DETECTORS.flatMap((detector): Evidence[] =>
    detector.missing(flight).length === 0 ? detector.detect(flight) : [],
  );
}

describe.skipIf(realFlights === null)("real flights", () => {
  test("every detector gets through every flight examined, and every piece of evidence has words", async () => {
    const all: Flight[] = JSON.parse(readFileSync(join(realFlights!, "truth.json"), "utf8"));
    // ALL_FLIGHTS=1 takes two minutes and every flight; else those that something definite is known of, and every sixth.
    const flights = all.filter(
      ({ condition }, i) =>
        process.env.ALL_FLIGHTS !== undefined ||
        i % 6 === 0 ||
        condition === "undamaged" ||
        condition === "weight-on-string-w3-near-m3" ||
        condition === "add-weight-w3-near-m3",
    );
    for (const flight of flights) {
      const evidence = await evidenceOf(flight);
      const findings = makeFindings({
        evidence,
        motorName: (motor) => `motor ${motor}`,
        phaseName: ({ kind }) => kind,
      });
      expect(findings, flight.file).toHaveLength(evidence.length);
      const named = (kind: string) => evidence.filter((one) => one.kind === kind).map(({ motor }) => motor);
      if (flight.condition === "undamaged" && flight.file.includes("motors-")) {
        expect(named("motor-floor"), flight.file).toEqual([]);
        expect(named("motor-response"), flight.file).toEqual([]);
      }
      // The weight leaves the ground when the string is taut: motor 3 is asked for more from then on, and has lost nothing.
      if (flight.condition === "weight-on-string-w3-near-m3") expect(named("motor-response"), flight.file).toEqual([]);
      // The heavy weight under motor 3 takes it to its ceiling, and it stands in the way of control there.
      if (flight.condition === "add-weight-w3-near-m3" && flight.file.includes("motors-")) {
        const longest = evidence
          .filter(({ kind }) => kind === "motor-saturation")
          .sort((a, b) => b.measures.share!.value - a.measures.share!.value)[0];
        expect(longest?.motor, flight.file).toBe(3);
        const least = evidence
          .flatMap((one) => (one.kind === "authority" ? one : []))
          .sort((a, b) => b.measures.share!.value - a.measures.share!.value)[0];
        expect(least?.binding[0]?.motor, flight.file).toBe(3);
      }
      expect(named("integrator-windup"), flight.file).toEqual([]);
    }
  }, 600_000);
});
