import { expect, test } from "vitest";
import { oscillation } from "../../../src/detect/index.ts";
import { makeFindings } from "../../../src/findings/index.ts";
import { buildFlight } from "../../../src/flight/index.ts";
import { randomGenerator } from "../../../src/signal/index.ts";
import { surveyLog } from "../../support/survey-log.ts";

const random = randomGenerator(4);

/** A two-bladed rotor at 124 turns a second shakes the body at 248 Hz; 250 rows a second show that as 2 Hz. */
function flightWith(turns: number) {
  const log = surveyLog(
    {
      "rate.pitch.measured": {
        unit: "rad/s",
        of: (t) => 0.3 * Math.sin(2 * Math.PI * 248 * t) + 0.02 * random.gaussian(),
      },
      "motor.1.speed": { unit: "rad/s", of: () => 2 * Math.PI * 60 },
      "motor.2.speed": { unit: "rad/s", of: () => 2 * Math.PI * turns },
    },
    { rate: 250, duration: 20 },
  );
  return buildFlight(log, null);
}

test("a 248 Hz line logged unfiltered at 250 Hz shows at 2 Hz and is told to be twice a rotor's speed", () => {
  const evidence = oscillation.detect(flightWith(124));
  expect(evidence).toHaveLength(1);
  expect(evidence[0]!.measures.frequency!.value).toBeCloseTo(2, 2);
  expect(evidence[0]!.rotorAlias).toMatchObject({ motor: 2, harmonic: 2 });
  expect(evidence[0]!.measures.rotorLine!.value).toBeCloseTo(248, 6);
  const [finding] = makeFindings({ evidence, motorName: String, phaseName: String });
  expect(finding!.meaning).toContain("may be no motion of this frequency at all");
  expect(finding!.meaning).toContain("motor 2 shakes the aircraft twice a turn at 248 Hz");
  expect(finding!.next.join(" ")).toContain("Log this axis at a higher rate");
});

test("a rotor whose lines fold elsewhere is not blamed", () => {
  const [found] = oscillation.detect(flightWith(110));
  expect(found!.rotorAlias).toBeNull();
  expect(found!.measures.rotorLine).toBeUndefined();
});
