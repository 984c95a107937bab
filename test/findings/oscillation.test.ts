import { describe, expect, test } from "vitest";
import type { Evidence, MotorLimitEvidence, OscillationEvidence } from "../../src/detect/index.ts";
import { findingSchema, makeFindings } from "../../src/findings/index.ts";

const context = (evidence: readonly Evidence[]) => ({
  evidence,
  motorName: (motor: number) => `motor ${motor}`,
  phaseName: () => "hover",
});

interface Sizes {
  readonly rate?: number;
  readonly angle?: number;
}

function swing({ rate = 0.1, angle = 0.01 }: Sizes, more: Partial<OscillationEvidence> = {}): OscillationEvidence {
  const driver = more.driver ?? "controller";
  return {
    kind: "oscillation",
    axis: "pitch",
    driver,
    trend: "sustained",
    group: "1",
    leads: true,
    start: 20,
    end: 30,
    confidence: 0.95,
    witnesses: ["attitude"],
    decision: {
      driver,
      loop: "rate",
      confidence: 0.9,
      reason: "moment-balance",
      drive: null,
      pull: null,
      rateResponse: { gain: 6, lag: 1.2, coherence: 0.9 },
      attitudeResponse: null,
    },
    atLimit: false,
    calm: 0.01,
    mayBeAlias: false,
    rotorAlias: null,
    after: null,
    phase: null,
    harmonics: [],
    flow: null,
    otherModes: [],
    periodicity: 0.9,
    regularity: 0.7,
    fit: { start: 20, end: 30, amplitude: 0.05 },
    measures: {
      frequency: { value: 1.5, unit: "Hz", low: 1.48, high: 1.52 },
      amplitude: { value: rate, unit: "rad/s" },
      angle: { value: angle, unit: "rad" },
      growth: { value: 0.2, unit: "1/s", low: 0.15, high: 0.25 },
      damping: { value: -0.02, unit: "1", low: -0.027, high: -0.016 },
      cycles: { value: 15, unit: "1" },
      onset: { value: 20, unit: "s", low: 19.5, high: 20.6 },
    },
    ...more,
  };
}

const levelOf = (one: OscillationEvidence) => makeFindings(context([one]))[0]!.severity;

describe("the alert table decides the level of an oscillation", () => {
  test.each([
    [{ rate: 0.34, angle: 0.05 }, {}, "advisory"],
    [{ rate: 0.35 }, {}, "caution"],
    [{ angle: 0.053 }, {}, "caution"],
    [{ rate: 1 }, {}, "warning"],
    [{ angle: 0.175 }, {}, "warning"],
    [{}, { trend: "growing" }, "caution"],
    [{}, { trend: "growing", atLimit: true }, "warning"],
    [{ rate: 1 }, { witnesses: [] }, "caution"],
    [{ rate: 1 }, { driver: "commanded" }, "note"],
  ] as const)("%j, %j: %s", (sizes, more, level) => {
    expect(levelOf(swing(sizes, more))).toBe(level);
  });
});

test("the words say axis, frequency, size, when, growth as doubling time, driver and loop; gains come last", () => {
  const [finding] = makeFindings(context([swing({ rate: 0.5 }, { trend: "growing" })]));
  expect(finding!.id).toBe("oscillation-pitch-1");
  expect(finding).toMatchObject({ driver: "controller", loop: "rate", trend: "growing", group: "1", leads: true });
  expect(findingSchema.safeParse(finding).success).toBe(true);
  for (const part of [
    "Pitch oscillated at 1.5",
    "28.6 deg/s",
    "from 20.0 s to 30.0 s",
    "doubling every 3.5 s",
    "rate loop",
  ])
    expect(finding!.summary).toContain(part);
  expect(finding!.next[0]).toContain("looseness");
  expect(finding!.next[1]).toContain("payload");
  expect(finding!.next.at(-1)).toContain("gain");
});

test("a motor at its floor while an axis that it serves oscillates is a warning", () => {
  const floor: MotorLimitEvidence = {
    kind: "motor-floor",
    motor: 3,
    start: 25,
    end: 25.05,
    serves: ["pitch", "yaw"],
    stretches: [{ start: 25, end: 25.05 }],
    where: [],
    limit: { command: 1110, from: "aircraft", tolerance: 0.5 },
    confidence: 0.99,
    measures: {
      share: { value: 0.001, unit: "1" },
      longest: { value: 0.05, unit: "s" },
      episodes: { value: 1, unit: "1" },
    },
  };
  const level = (other: OscillationEvidence) =>
    makeFindings(context([floor, other])).find(({ kind }) => kind === "motor-floor")!.severity;
  expect(level(swing({ rate: 0.5 }))).toBe("warning");
  expect(level(swing({ rate: 0.5 }, { axis: "roll" }))).toBe("advisory");
  expect(level(swing({ rate: 0.5 }, { start: 40, end: 50 }))).toBe("advisory");
  expect(level(swing({ rate: 0.5 }, { driver: "commanded" }))).toBe("advisory");
});

test("where the motors hold an airframe that tips by itself, what the air pushes comes before any gain", () => {
  const decision = { ...swing({}).decision, reason: "held-against", drive: { share: { value: 5, low: 3, high: 7 } } };
  const next = (more: object) =>
    makeFindings(context([swing({}, more as Partial<OscillationEvidence>)]))[0]!.next.join(" ");
  expect(next({ decision })).toMatch(/Take off or shorten what the air can push round/);
  expect(next({ decision })).not.toMatch(/Only then lower the gain/);
  expect(next({})).toMatch(/Only then lower the gain/);
});

test("where no set point tells the loop, none is named", () => {
  const { decision } = swing({});
  const evidence = [swing({}, { decision: { ...decision, rateResponse: null } })];
  const [finding] = makeFindings(context(evidence));
  expect(finding!.summary).toContain("no logged set point tells which of its loops it is");
  expect(finding!.loop).toBeUndefined();
  expect(finding!.next.join(" ")).not.toContain("rate loop");
});
