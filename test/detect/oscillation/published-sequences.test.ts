// What the detector itself makes of the sequences by which the literature judges oscillation indices.
import { describe, expect, test } from "vitest";
import { oscillation } from "../../../src/detect/index.ts";
import { periodicity } from "../../../src/detect/oscillation/periodicity.ts";
import { buildFlight } from "../../../src/flight/index.ts";
import { zeroCrossingRegularity } from "../../../src/signal/index.ts";
import { noise } from "../../signal/support.ts";
import { surveyLog } from "../../support/survey-log.ts";

/** Samples to the period of every sequence; at 64 Hz the period is half a second. */
const PERIOD = 32;
const RATE = 64;
const FREQUENCY = RATE / PERIOD;

/** AR(2) driven by uniform noise of lcg(7): the loops of the tables of decay ratios (Miao & Seborg 1999). */
function drivenLoop(radius: number, count: number): Float64Array {
  const angle = (2 * Math.PI) / PERIOD;
  const drive = noise(7, count);
  const out = new Float64Array(count);
  for (let n = 0; n < count; n++) {
    const [one, two] = [n > 0 ? out[n - 1]! : 0, n > 1 ? out[n - 2]! : 0];
    out[n] = 2 * radius * Math.cos(angle) * one - radius * radius * two + drive[n]!;
  }
  return out;
}

/** Another noise for as long as the sequence lasts, then the sequence, of this rms in rad/s. */
function foundIn(
  values: Float64Array,
  rms: number,
  before: Float64Array = noise(11, values.length).map((u) => 0.1 * u),
) {
  const scale = rms / Math.sqrt(values.reduce((sum, value) => sum + value * value, 0) / values.length);
  const all = [...before, ...values].map((value) => scale * value);
  const log = surveyLog(
    { "rate.roll.measured": { unit: "rad/s", of: (t) => all[Math.round(t * RATE)]! } },
    { rate: RATE, duration: (all.length - 1) / RATE },
  );
  return oscillation.detect(buildFlight(log, null));
}

describe("decay ratio (Miao & Seborg 1999)", () => {
  test.each([
    [0.051, 0.836],
    [0.253, 0.403],
    [0.473, 0.113],
  ])(
    "damping ratio %d: periodicity is the decay of four half-cycles, the band adding a tenth or two",
    (zeta, decayRatio) => {
      // Pole radius exp(-zeta w0), damped angle 2 pi / 32.
      const radius = Math.exp((-2 * Math.PI * zeta) / (PERIOD * Math.sqrt(1 - zeta * zeta)));
      const found = periodicity(drivenLoop(radius, 16_384), RATE, FREQUENCY);
      expect(found - decayRatio ** 4).toBeGreaterThan(-0.1);
      expect(found - decayRatio ** 4).toBeLessThan(0.2);
    },
  );

  test("a loop at the limit of a quarter's decay a cycle (0.5 a half-cycle), shaken, is no oscillation", () => {
    const radius = Math.exp((-2 * Math.PI * 0.2155) / (PERIOD * Math.sqrt(1 - 0.2155 ** 2)));
    expect(foundIn(drivenLoop(radius, 2048), 0.1)).toEqual([]);
  });

  test("a loop that keeps 0.97 of every half-cycle is one", () => {
    const radius = 0.97 ** (2 / PERIOD);
    const [found] = foundIn(drivenLoop(radius, 2048), 0.1);
    expect(found!.measures.frequency!.value).toBeCloseTo(FREQUENCY, 1);
  });
});

describe("regularity of zero crossings (Thornhill, Huang & Zhang 2003)", () => {
  const sine = (amplitude: number) =>
    noise(7, 1024).map((u, n) => u + amplitude * Math.sin((2 * Math.PI * n) / PERIOD));

  const begins = (amplitude: number) => foundIn(sine(amplitude), 0.1, noise(11, 1024));

  test("a sine of half the noise's amplitude is found", () => {
    expect(zeroCrossingRegularity(sine(0.5))!.regularity).toBeGreaterThan(50);
    expect(begins(0.5)[0]!.measures.frequency!.value).toBeCloseTo(FREQUENCY, 1);
  });

  test("one of a quarter, which its crossings miss, stays below three times the calm of its band", () => {
    expect(zeroCrossingRegularity(sine(0.25))!.regularity).toBeLessThan(1);
    expect(begins(0.25)).toEqual([]);
  });

  test("a shaken loop of damping ratio 0.253, whose crossings are regular, is no oscillation", () => {
    const loop = drivenLoop(0.95, 4096);
    expect(zeroCrossingRegularity(loop)!.regularity).toBeGreaterThan(1);
    expect(foundIn(loop, 0.1)).toEqual([]);
  });

  test("noise alone is none", () => {
    expect(foundIn(noise(7, 2048), 0.1)).toEqual([]);
  });
});
