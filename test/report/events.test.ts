import { describe, expect, test } from "vitest";
import type { Finding } from "../../src/findings/finding.ts";
import { eventGist, eventName, eventsOf } from "../../src/report/events.ts";

const finding = (id: string, more: Partial<Finding>): Finding => ({
  id,
  kind: "oscillation",
  severity: "caution",
  confidence: 0.9,
  start: 10,
  end: 20,
  summary: "",
  meaning: "",
  cautions: [],
  next: [],
  measures: {},
  method: "",
  sources: [],
  charts: [],
  ...more,
});

describe("findings that belong to one event", () => {
  const pitch = finding("pitch", { axis: "pitch", group: "1", leads: true, severity: "warning" });
  const yaw = finding("yaw", { axis: "yaw", group: "1", leads: false, severity: "advisory" });
  const floor = finding("floor", { kind: "motor-floor", motor: 4 });
  const roll = finding("roll", { axis: "roll", group: "1", leads: false, severity: "warning" });

  test("are told as one, led by the axis that had it first", () => {
    const events = eventsOf([yaw, pitch, floor, roll]);
    expect(events.map(eventName)).toEqual([
      "Pitch oscillation, with it yaw oscillation and roll oscillation",
      "Motor 4 at its floor",
    ]);
  });

  test("are led by the worst of them where that is another", () => {
    const late = { ...yaw, severity: "warning" as const };
    const early = { ...pitch, severity: "advisory" as const };
    expect(eventsOf([early, late])[0]).toEqual({ lead: late, others: [early] });
  });

  test("are those of several motors at their limits at the same time, whichever limit it is", () => {
    const ceiling = finding("ceiling", { kind: "motor-saturation", motor: 1, start: 12, end: 30, severity: "warning" });
    const later = finding("later", { kind: "motor-floor", motor: 2, start: 19, end: 40 });
    const events = eventsOf([floor, ceiling, pitch, { ...later, start: 41, end: 42 }]);
    expect(events.map(eventName)).toEqual([
      "Motor 1 at its ceiling, with it motor 4 at its floor",
      "Pitch oscillation",
      "Motor 2 at its floor",
    ]);
    expect(eventsOf([floor, later])).toHaveLength(2);
  });

  test("are not what a motor has for the record", () => {
    const room = (motor: number, severity: Finding["severity"]) =>
      finding(`room-${motor}`, { kind: "motor-headroom", motor, severity });
    const events = eventsOf([room(1, "caution"), room(2, "note"), room(3, "advisory")]);
    expect(events.map(({ lead, others }) => [lead, ...others].map(({ motor }) => motor))).toEqual([[1, 3], [2]]);
  });

  test("are not mixed with another kind that has the same group", () => {
    expect(eventsOf([pitch, finding("room", { kind: "authority", axis: "pitch", group: "1" })])).toHaveLength(2);
  });
});

describe("the gist of an event", () => {
  const gist = (summary: string, driver?: string) =>
    eventGist({ lead: finding("a", { summary, ...(driver !== undefined && { driver }) }), others: [] });

  test("is the first sentence, whose decimals do not end it", () => {
    expect(gist("Roll oscillated at 0.5 Hz by up to 3.56 deg/s. It began in cruise.")).toBe(
      "Roll oscillated at 0.5 Hz by up to 3.56 deg/s.",
    );
  });

  test("is not ended by a full stop of a motor's own label", () => {
    expect(gist("Motor 3 (No. 3, front left) was on its floor. It served pitch.")).toBe(
      "Motor 3 (No. 3, front left) was on its floor.",
    );
  });

  test("says what drove it, or that nothing decides", () => {
    expect(gist("It swung. Then more.", "external")).toBe(
      "It swung. Most likely something outside the control loop drives it.",
    );
    expect(gist("It swung.", "undetermined")).toMatch(/does not decide\.$/);
  });
});
