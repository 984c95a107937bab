import { describe, expect, test } from "vitest";
import { DETECTORS, type Evidence } from "../../src/detect/index.ts";
import { ALERT_TABLE, explainableKinds, explainKind, findingSchema, makeFindings } from "../../src/findings/index.ts";

const context = (evidence: readonly Evidence[]) => ({
  evidence,
  motorName: (motor: number) => `motor ${motor} (rear left)`,
  phaseName: () => "cruise at 14 m/s (speed step 4, leg 7)",
});

const atFloor = (share: number, longest: number, start = 10): Evidence => ({
  kind: "motor-floor",
  motor: 4,
  start,
  end: start + longest,
  serves: ["roll", "pitch", "yaw"],
  stretches: [{ start, end: start + longest }],
  where: [{ phase: { kind: "cruise", start: 0, end: 60, speed: 14, step: 4, leg: 7 }, seconds: longest }],
  limit: { command: 1110, from: "aircraft", tolerance: 0.5 },
  confidence: 0.99,
  measures: {
    share: { value: share, unit: "1" },
    longest: { value: longest, unit: "s" },
    episodes: { value: 1, unit: "1" },
  },
});

describe("the alert table decides the level of a motor at its floor", () => {
  test.each([
    [0.001, 0.05, "advisory"],
    [0.005, 0.05, "caution"],
    [0.001, 0.2, "caution"],
    [0.1, 0.05, "warning"],
    [0.001, 1, "warning"],
  ])("share %d, longest %d s: %s", (share, longest, level) => {
    expect(makeFindings(context([atFloor(share, longest)]))[0]!.severity).toBe(level);
  });
});

test("a finding says which motor, how long, when and where, and what to do", () => {
  const [finding] = makeFindings(context([atFloor(0.012, 0.7)]));
  expect(finding!.summary).toBe(
    "Motor 4 (rear left) was on its floor (command 1110) for 1.2 % of the air time: once, at 10.0 s for 0.70 s. Most of it was in cruise at 14 m/s (speed step 4, leg 7).",
  );
  expect(finding!.next.length).toBeGreaterThan(0);
  expect(finding!.cautions.length).toBeGreaterThan(0);
});

test("a touch of a limit says that it was one, for how long, and what would make it matter", () => {
  const [touch] = makeFindings(context([atFloor(0.0001, 0.01)]));
  expect(touch!.summary).toMatch(
    /^Motor 4 \(rear left\) touched its floor \(command 1110\) once, at 10\.0 s for 0\.01 s\./,
  );
  expect(touch!.meaning).toMatch(/would matter if it lasted 0\.20 s or longer, .* 0\.5 % of the air time/);
  expect(touch!.next).toHaveLength(1);
  expect(touch!.severity).toBe("advisory");
});

test("what is no touch any more, by its length or by its level, is told in full", () => {
  for (const evidence of [atFloor(0.0001, 0.06), atFloor(0.01, 0.01)]) {
    const [finding] = makeFindings(context([evidence]));
    expect(finding!.summary).toMatch(/was on its floor .* of the air time: once, at/);
    expect(finding!.next.length).toBeGreaterThan(1);
  }
});

test("findings come in order of time, with ids that are unique and fit file names", () => {
  const findings = makeFindings(context([atFloor(0.1, 1, 30), atFloor(0.1, 1, 5)]));
  expect(findings.map(({ id }) => id)).toEqual(["motor-floor-4-1", "motor-floor-4-2"]);
  expect(findings[0]!.start).toBeLessThan(findings[1]!.start);
  for (const finding of findings) expect(findingSchema.safeParse(finding).success).toBe(true);
});

test("every detector's kind has words and a guide with method, limits, sources and cautions", () => {
  for (const { kind } of DETECTORS) {
    const guide = explainKind(kind);
    expect(guide, kind).toBeDefined();
    for (const text of [guide!.title, guide!.meaning, guide!.method, guide!.limits])
      expect(text.length).toBeGreaterThan(10);
    expect(guide!.sources.length, kind).toBeGreaterThan(0);
    expect(guide!.cautions.length, kind).toBeGreaterThan(0);
  }
});

test("no guide promises safety", () => {
  for (const kind of explainableKinds()) expect(JSON.stringify(explainKind(kind))).not.toMatch(/\bsafe(ly)?\b/i);
});

test("the alert table rises: a warning asks for more than a caution", () => {
  for (const kind of ["motor-saturation", "motor-floor"] as const) {
    expect(ALERT_TABLE[kind].warning.share).toBeGreaterThan(ALERT_TABLE[kind].caution.share);
    expect(ALERT_TABLE[kind].warning.longest).toBeGreaterThan(ALERT_TABLE[kind].caution.longest);
  }
});

test("thousands of episodes are told as some, the nearest joined, and none is left out", () => {
  const stretches = Array.from({ length: 5000 }, (_, i) => ({ start: i + (i % 50 === 0 ? 0 : -0.4), end: i + 0.5 }));
  const [finding] = makeFindings(context([{ ...atFloor(0.1, 1), stretches, start: 0, end: 5000 } as Evidence]));
  const told = finding!.stretches!;
  expect(told.length).toBeLessThanOrEqual(150);
  expect(told.length).toBeGreaterThan(90);
  for (const { start, end } of stretches) {
    expect(told.some((one) => one.start <= start && one.end >= end)).toBe(true);
  }
});
