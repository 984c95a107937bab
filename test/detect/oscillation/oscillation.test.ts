import { describe, expect, test } from "vitest";
import { oscillation } from "../../../src/detect/index.ts";
import { buildFlight } from "../../../src/flight/index.ts";
import { randomGenerator } from "../../../src/signal/index.ts";
import { type SurveyOptions, surveyLog } from "../../support/survey-log.ts";

/** White noise of the given rms, the same at the same time. */
function noise(rms: number, seed: number): (t: number) => number {
  const random = randomGenerator(seed);
  const values = Array.from({ length: 20_000 }, () => rms * random.gaussian());
  return (t) => values[Math.round(t * 100) % values.length]!;
}

/** A pitch rate with its attitude, the integral of what swings. */
function flightOf(swing: (t: number) => number, angle: (t: number) => number, options: SurveyOptions = {}) {
  const shake = noise(0.02, 5);
  return buildFlight(
    surveyLog(
      {
        "rate.pitch.measured": { unit: "rad/s", of: (t) => swing(t) + shake(t) },
        "attitude.pitch.measured": { unit: "rad", of: angle },
      },
      { rate: 100, ...options },
    ),
    null,
  );
}

const OMEGA = 2 * Math.PI * 1.5;

describe("a swing of 1.5 Hz that grows by 0.2 1/s from 20 s on", () => {
  const [onset, sigma, first] = [20, 0.2, 0.06];
  const size = (t: number) => (t < onset ? 0 : first * Math.exp(sigma * (t - onset)));
  const flight = flightOf(
    (t) => size(t) * Math.sin(OMEGA * t),
    (t) => (-size(t) * Math.cos(OMEGA * t)) / OMEGA,
    { duration: 36 },
  );
  const [found, ...others] = oscillation.detect(flight);

  test("is found once, on its axis, with the attitude as a second witness", () => {
    expect(others).toEqual([]);
    expect(found!.axis).toBe("pitch");
    expect(found!.witnesses).toContain("attitude");
  });

  test("its frequency is right within half a percent, inside its interval", () => {
    const { value, low, high } = found!.measures.frequency!;
    expect(Math.abs(value / 1.5 - 1)).toBeLessThan(0.005);
    expect(low!).toBeLessThan(1.5);
    expect(high!).toBeGreaterThan(1.5);
  });

  test("it grows, at the rate given, with the damping that goes with it", () => {
    expect(found!.trend).toBe("growing");
    const { low, high, value } = found!.measures.growth!;
    expect(low! <= sigma + 0.01 && high! >= sigma - 0.01).toBe(true);
    expect(value).toBeCloseTo(sigma, 1);
    // zeta = -sigma / |s|
    expect(found!.measures.damping!.value).toBeCloseTo(-sigma / Math.hypot(sigma, OMEGA), 2);
  });

  test("it begins where it passes three times the calm, and its largest amplitude is that of the end", () => {
    const visible = onset + Math.log(Math.max(3 * found!.calm!, 0.03) / first) / sigma;
    expect(Math.abs(found!.start - Math.max(onset, visible))).toBeLessThan(1.5);
    // The last half cycle is left out, where the data ends.
    const largest = size(36 - 0.5 / 1.5);
    expect(found!.measures.amplitude!.value / largest).toBeGreaterThan(0.9);
    expect(found!.measures.amplitude!.value / largest).toBeLessThan(1.1);
  });
});

test.each([
  [0.3, 0.03, 8],
  [0.2, 0.05, 12],
])(
  "a swing of %d rad/s that is switched on and grows by %d 1/s began then, at %d s, and not long before",
  (first, sigma, onset) => {
    const shake = noise(0.005, 9);
    const size = (t: number) => (t < onset ? 0 : first * Math.exp(sigma * (t - onset)));
    const log = surveyLog(
      { "rate.pitch.measured": { unit: "rad/s", of: (t) => size(t) * Math.sin(OMEGA * t) + shake(t) } },
      { rate: 100, duration: 36 },
    );
    const [found] = oscillation.detect(buildFlight(log, null));
    expect(found!.trend).toBe("growing");
    const { low, high } = found!.measures.onset!;
    expect(low!).toBeLessThan(onset);
    // Three cycles to tell the calm by, and some three over which the filter smears a step this far above it.
    expect(low!).toBeGreaterThan(onset - 6.5 / 1.5);
    expect(high!).toBeGreaterThan(onset);
  },
);

test("a swing that grew out of the noise may have been there before it was seen, but not before the data", () => {
  const [sigma, grown] = [0.12, 0.6];
  const shake = noise(0.1, 9);
  const log = surveyLog(
    {
      "rate.pitch.measured": {
        unit: "rad/s",
        of: (t) => grown * Math.exp(sigma * (t - 36)) * Math.sin(OMEGA * t) + shake(t),
      },
    },
    { rate: 100, duration: 36 },
  );
  const [found] = oscillation.detect(buildFlight(log, null));
  const { value, low } = found!.measures.onset!;
  expect(found!.trend).toBe("growing");
  expect(value - low!).toBeGreaterThan(1 / found!.measures.growth!.value);
  expect(low!).toBeGreaterThanOrEqual(0);
});

test("a swing of constant size is sustained, one that dies away decays", () => {
  const steady = flightOf(
    (t) => 0.5 * Math.sin(OMEGA * t),
    (t) => (-0.5 * Math.cos(OMEGA * t)) / OMEGA,
    { duration: 10 },
  );
  expect(oscillation.detect(steady)[0]).toMatchObject({ trend: "sustained" });
  const size = (t: number) => (t < 15 ? 0 : Math.exp(-0.25 * (t - 15)));
  const dying = flightOf(
    (t) => size(t) * Math.sin(OMEGA * t),
    (t) => (-size(t) * Math.cos(OMEGA * t)) / OMEGA,
    { duration: 40 },
  );
  const [found] = oscillation.detect(dying);
  expect(found!.trend).toBe("decaying");
  expect(found!.measures.growth!.value).toBeCloseTo(-0.25, 1);
});

describe("a knock at 20 s that sets a swing of 0.45 Hz going, which rings down within 18 s, in a log of 40 s", () => {
  const [knock, omega, sigma] = [20, 2 * Math.PI * 0.45, -0.1];
  const size = (t: number) => (t < knock ? 0 : 0.2 * Math.exp(sigma * (t - knock)));
  const [found] = oscillation.detect(
    flightOf(
      (t) => size(t) * Math.sin(omega * (t - knock)),
      (t) => (-size(t) * Math.cos(omega * (t - knock))) / omega,
      { duration: 40 },
    ),
  );

  test("is found, and decays at the rate given", () => {
    expect(found!.trend).toBe("decaying");
    expect(found!.measures.growth!.low!).toBeLessThan(sigma);
    expect(found!.measures.growth!.high!).toBeGreaterThan(sigma);
  });

  test("began with the knock, not where a filter that looks both ways lets it rise", () => {
    expect(Math.abs(found!.start - knock)).toBeLessThan(0.25 / 0.45);
    expect(found!.measures.onset!.low!).toBeLessThan(knock);
    expect(found!.measures.onset!.high!).toBeGreaterThan(knock);
  });

  test("has the calm of the noise before it, though it fills half of the log", () => {
    // White noise of 0.02 rad/s rms at 100 Hz has 2/100 of its power in each hertz; the band is 0.83 of 0.45 Hz wide.
    const calm = 0.02 * Math.sqrt((2 / 100) * 0.83 * 0.45);
    expect(found!.calm! / calm).toBeGreaterThan(0.5);
    expect(found!.calm! / calm).toBeLessThan(2);
  });
});

test("noise, slow manoeuvres and the response of a well damped loop to gusts are silent", () => {
  const random = randomGenerator(3);
  // zeta 0.5 at 1.5 Hz, driven by white noise, 100 Hz, some 0.2 rad/s rms
  const radius = Math.exp((-0.5 * OMEGA) / 100);
  const angle = (OMEGA * Math.sqrt(0.75)) / 100;
  const response = new Float64Array(12_001);
  for (let n = 2; n < response.length; n++)
    response[n] =
      2 * radius * Math.cos(angle) * response[n - 1]! - radius ** 2 * response[n - 2]! + 0.006 * random.gaussian();
  const flight = flightOf(
    (t) => response[Math.round(t * 100)]! + 0.3 * Math.sin(0.5 * t) * Math.exp(-(((t - 50) / 10) ** 2)),
    () => 0,
    { duration: 120 },
  );
  expect(oscillation.detect(flight)).toEqual([]);
});

test("a knock that rings for two cycles is no oscillation", () => {
  const size = (t: number) => (t < 20 ? 0 : 2 * Math.exp(-2.5 * (t - 20)));
  const flight = flightOf(
    (t) => size(t) * Math.sin(OMEGA * t),
    () => 0,
    { duration: 40 },
  );
  expect(oscillation.detect(flight)).toEqual([]);
});

test("an oscillation on both sides of a gap is one finding in two stretches, and nothing lies in the gap", () => {
  const gap = { start: 14, end: 15.5 };
  const size = (t: number) => (t > 8 && t < 24 ? 0.6 : 0);
  const flight = flightOf(
    (t) => size(t) * Math.sin(OMEGA * t),
    (t) => (-size(t) * Math.cos(OMEGA * t)) / OMEGA,
    { duration: 30, gaps: [gap] },
  );
  const [found] = oscillation.detect(flight);
  expect(found!.stretches!.length).toBe(2);
  for (const { start, end } of found!.stretches!) expect(end <= gap.start + 0.02 || start >= gap.end - 0.02).toBe(true);
});

test("axes of one event share a group, and the one that had it first leads", () => {
  const shake = [noise(0.02, 1), noise(0.02, 2)];
  const size = (t: number, onset: number) => (t < onset ? 0 : 0.6 * Math.min(1, (t - onset) / 3));
  const flight = buildFlight(
    surveyLog(
      {
        "rate.roll.measured": { unit: "rad/s", of: (t) => size(t, 23) * Math.sin(OMEGA * t) + shake[0]!(t) },
        "rate.pitch.measured": { unit: "rad/s", of: (t) => size(t, 20) * Math.cos(OMEGA * t) + shake[1]!(t) },
      },
      { rate: 100, duration: 40 },
    ),
    null,
  );
  const found = oscillation.detect(flight);
  expect(found.map(({ axis, leads }) => [axis, leads])).toEqual([
    ["roll", false],
    ["pitch", true],
  ]);
  expect(new Set(found.map(({ group }) => group)).size).toBe(1);
});

test.each([60, -40])("an axis that swings %d deg behind the one that leads says so", (behind) => {
  const shake = [noise(0.02, 1), noise(0.02, 2)];
  const size = (t: number, onset: number) => (t < onset ? 0 : 0.6 * Math.min(1, (t - onset) / 3));
  const lag = (behind * Math.PI) / 180;
  const log = surveyLog(
    {
      "rate.roll.measured": { unit: "rad/s", of: (t) => size(t, 23) * Math.sin(OMEGA * t - lag) + shake[0]!(t) },
      "rate.pitch.measured": { unit: "rad/s", of: (t) => size(t, 20) * Math.sin(OMEGA * t) + shake[1]!(t) },
    },
    { rate: 100, duration: 40 },
  );
  const [roll, pitch] = oscillation.detect(buildFlight(log, null));
  expect(pitch!.measures.axisLag).toBeUndefined();
  const { value, low, high } = roll!.measures.axisLag!;
  expect(value).toBeCloseTo(lag, 1);
  expect(low! <= lag && high! >= lag).toBe(true);
});

/** What besides its main frequency of 1.5 Hz is told of an axis that also swings with others, of a third of its size. */
function besides(frequency: number) {
  const start = (t: number) => (t < 20 ? 0 : 1);
  const [found] = oscillation.detect(
    flightOf(
      (t) => start(t) * (0.6 * Math.sin(OMEGA * t) + 0.2 * Math.sin(2 * Math.PI * frequency * t)),
      (t) => (-start(t) * 0.6 * Math.cos(OMEGA * t)) / OMEGA,
      { duration: 40 },
    ),
  );
  expect(found!.measures.frequency!.value).toBeCloseTo(1.5, 1);
  return found!;
}

test("a wave at three times the frequency is its harmonic, one at 2.6 times is another mode", () => {
  const bent = besides(4.5);
  expect(bent.harmonics).toEqual([3]);
  expect(bent.otherModes).toEqual([]);
  const two = besides(3.9);
  expect(two.harmonics).toEqual([]);
  expect(two.otherModes.length).toBe(1);
  expect(two.otherModes[0]).toBeCloseTo(3.9, 1);
});

test("without motor commands or a controller output the driver stays undetermined", () => {
  const flight = flightOf(
    (t) => 0.5 * Math.sin(OMEGA * t),
    () => 0,
    { duration: 10 },
  );
  const [found] = oscillation.detect(flight);
  expect(found!.driver).toBe("undetermined");
  expect(found!.decision.reason).toBe("no-moment");
});

test("a log without rates and attitudes says what is missing", () => {
  const flight = buildFlight(surveyLog({ altitude: { unit: "m", of: () => 5 } }), null);
  expect(oscillation.missing(flight)).toEqual(["rate.AXIS.measured"]);
});

/**
 * Loop K / (s (s + 1) (s + 2)) with unit saturation and K = 10: poles of the unstable start +0.154454 +- j1.731557, limit
 * cycle of amplitude 2.06515 and period 4.488 s (describing function and simulation, published in control courses). Run
 * five times as fast, so that it lies where aircraft oscillate.
 */
test("a limit cycle is followed from its exponential start to its saturated end", () => {
  const [speed, step] = [5, 0.001];
  let [x, v, a] = [0.01, 0, 0];
  const values: number[] = [];
  for (let n = 0; n <= 14_000; n++) {
    if (n % 10 === 0) values.push(x);
    for (let k = 0; k < speed; k++) {
      const u = Math.max(-1, Math.min(1, -x));
      const jerk = 10 * u - 3 * a - 2 * v;
      a += step * jerk;
      v += step * a;
      x += step * v;
    }
  }
  const flight = buildFlight(
    surveyLog(
      { "rate.roll.measured": { unit: "rad/s", of: (t) => values[Math.round(t * 100)]! } },
      { rate: 100, duration: 14 },
    ),
    null,
  );
  const [found] = oscillation.detect(flight);
  expect(found!.trend).toBe("growing");
  expect(found!.measures.growth!.value / speed).toBeGreaterThan(0.1);
  expect(found!.measures.growth!.value / speed).toBeLessThan(0.2);
  expect(found!.measures.amplitude!.value).toBeGreaterThan(1.9);
  expect(found!.measures.amplitude!.value).toBeLessThan(2.3);
  expect(found!.measures.frequency!.value / speed).toBeGreaterThan(0.21);
  expect(found!.measures.frequency!.value / speed).toBeLessThan(0.28);
});
