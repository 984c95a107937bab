import { describe, expect, test } from "vitest";
import type { ThrustImbalanceEvidence } from "../../../src/detect/index.ts";
import { makeFindings, refusalWords } from "../../../src/findings/index.ts";

const estimate = (value: number, half = 0.005) => ({ value, unit: "1", low: value - half, high: value + half });

function evidence(values: readonly number[], changes: Partial<ThrustImbalanceEvidence> = {}): ThrustImbalanceEvidence {
  return {
    kind: "thrust-imbalance",
    pattern: "single-motor",
    motor: 3,
    motors: [3],
    alternatives: [],
    alternativePairs: [],
    isUsual: false,
    sharedPlaces: [],
    from: "command",
    condition: { kind: "hover", speed: 0, step: null, direction: null, spans: [{ start: 5, end: 25 }] },
    isAgainstBaseline: false,
    start: 5,
    end: 25,
    confidence: 0.9,
    measures: {
      "cg-forward": { value: -0.004, unit: "m", low: -0.005, high: -0.003 },
      "cg-right": { value: 0.002, unit: "m", low: 0.001, high: 0.003 },
      "spin-bias": estimate(0.01),
      loss: estimate(0.12),
    },
    perMotor: { excess: values.map((value, i) => ({ motor: i + 1, ...estimate(value) })) },
    ...changes,
  };
}

const findingOf = (made: ThrustImbalanceEvidence) =>
  makeFindings({ evidence: [made], motorName: (m) => `motor ${m} (rear right)`, phaseName: ({ kind }) => kind })[0]!;

describe("alert level of a thrust imbalance", () => {
  test.each([
    [0.04, false, "note"],
    [0.06, false, "advisory"],
    [0.16, false, "caution"],
    [0.09, true, "caution"],
    [0.31, false, "warning"],
  ])("an excess of %d (against a baseline: %s) is %s", (value, isAgainstBaseline, level) => {
    expect(findingOf(evidence([0, 0, value, 0], { isAgainstBaseline })).severity).toBe(level);
  });

  test.each([0.16, 0.4])("a hint is advisory at most, though a motor stands out by %d", (value) => {
    expect(findingOf(evidence([0, 0, value, 0], { isUsual: true })).severity).toBe("advisory");
  });

  test("an excess whose interval holds zero does not count", () => {
    const perMotor = { excess: [1, 2, 3, 4].map((motor) => ({ motor, ...estimate(motor === 3 ? 0.2 : 0, 0.3) })) };
    expect(findingOf(evidence([], { perMotor })).severity).toBe("note");
  });
});

describe("words of a thrust imbalance", () => {
  test("name the motor, its excess with its interval and the loss", () => {
    const { summary, motor, measures } = findingOf(evidence([0, 0, 0.12, 0]));
    expect(summary).toContain("Motor 3 (rear right) is asked for 12 % (between 12 and 13 %) more thrust");
    expect(summary).toContain("as if it had lost 12 %");
    expect(motor).toBe(3);
    expect(measures.excess).toHaveLength(4);
  });

  test("send people to the propeller first and to calibration last, and never to trim a fault away", () => {
    const { next, cautions } = findingOf(evidence([0, 0, 0.12, 0]));
    expect(next[0]).toMatch(/battery disconnected.*propeller/);
    expect(next[4]).toMatch(/calibration/);
    expect(cautions[0]).toMatch(/mechanical cause first/);
  });

  test("say which patterns look alike and which test would tell", () => {
    const { meaning, next, alternatives } = findingOf(
      evidence([0, 0, 0.12, 0], { alternatives: ["spin-pair", "centre-of-gravity"] }),
    );
    expect(alternatives).toEqual(["spin-pair", "centre-of-gravity"]);
    expect(meaning).toMatch(/does not tell it from a twisted motor.*, or a centre of gravity/);
    expect(next.join(" ")).toMatch(/swap two propellers of the same type and rotation/);
    expect(next.join(" ")).toMatch(/weigh the aircraft on the ends of its arms/);
  });

  test("give the tilt that each motor would need, like ones together", () => {
    const made = evidence([0.2, -0.2, 0.2, -0.2], { pattern: "spin-pair", motors: [] });
    const tilt = (motor: number, value: number) => ({
      motor,
      value,
      unit: "rad",
      low: value - 0.001,
      high: value + 0.001,
    });
    const { meaning } = findingOf({
      ...made,
      measures: {
        ...made.measures,
        "spin-bias": estimate(-0.2),
        tilt: { value: 0.035, unit: "rad", low: 0.03, high: 0.06 },
      },
      perMotor: { ...made.perMotor, "tilt-by-motor": [tilt(1, 0.035), tilt(2, 0.06), tilt(3, 0.035), tilt(4, 0.06)] },
    });
    // 0.035 and 0.06 rad are 2.01 and 3.44 degrees.
    expect(meaning).toMatch(
      /unlike leans: 2 deg if it is motor 1 or 3, 3\.4 deg if it is motor 2 or 4 \(give or take up to 0\.1 deg\)/,
    );
    // No one number stands for leans that differ.
    expect(meaning).not.toMatch(/leans sideways.*by 2 deg/);
  });

  test("tell no twist of a spin bias that the named motor explains, and only the rest of one that it does not", () => {
    const made = evidence([0, 0, 0.12, 0]);
    const leaving = (twist: number) =>
      findingOf({ ...made, measures: { ...made.measures, "spin-bias": estimate(0.027), twist: estimate(twist) } })
        .meaning;
    expect(leaving(0.001)).not.toMatch(/propellers carry|leans/);
    expect(leaving(-0.025)).toMatch(/Besides, the clockwise propellers carry 2\.5 % more than this explains/);
    expect(leaving(-0.025)).not.toMatch(/leans/);
  });

  test("give the lean of a twisted motor where that is another answer", () => {
    const made = evidence([0, 0, 0.12, 0], { alternatives: ["spin-pair"] });
    const lean = { value: -0.0175, unit: "rad", low: -0.019, high: -0.016 };
    const { meaning } = findingOf({
      ...made,
      measures: { ...made.measures, "spin-bias": estimate(0.027), twist: estimate(0.001), tilt: lean },
      perMotor: { ...made.perMotor, "tilt-by-motor": [1, 2, 3, 4].map((motor) => ({ motor, ...lean })) },
    });
    expect(meaning).toMatch(/If it is a twisted motor instead: one motor that leans sideways,.* by 1\.0+ deg/);
  });

  test("give one lean where all motors would need the same, and say of motors on one arm that nothing tells which", () => {
    const made = evidence([0.06, -0.06, 0.06, -0.06], { pattern: "spin-pair", motors: [], sharedPlaces: [[1, 2]] });
    const lean = { value: -0.0175, unit: "rad", low: -0.019, high: -0.016 };
    const { meaning } = findingOf({
      ...made,
      measures: { ...made.measures, "spin-bias": estimate(0.06), tilt: lean },
      perMotor: { ...made.perMotor, "tilt-by-motor": [1, 2, 3, 4].map((motor) => ({ motor, ...lean })) },
    });
    expect(meaning).toMatch(/by 1\.0+ deg .* would make as much yaw moment; which one, the balance does not tell\./);
    expect(meaning).toMatch(/Of motors on one arm \(1 and 2\) nothing in steady flight tells which one leans/);
  });

  test("call what aircraft in order show as well a hint", () => {
    const hint = { isUsual: true };
    expect(findingOf(evidence([0, 0, 0.03, 0], hint)).meaning).toMatch(
      /^An aircraft in order explains this as well as any single fault does, so this is a hint and no more\./,
    );
    expect(findingOf(evidence([0, 0, 0.03, 0], { ...hint, isAgainstBaseline: true })).meaning).toMatch(
      /^An aircraft in order, flown twice, explains this as well/,
    );
    expect(findingOf(evidence([0, 0, 0.12, 0])).meaning).not.toMatch(/a hint/);
  });

  test("tell a loss that may be none by how large it can be", () => {
    const made = evidence([0, 0, 0.04, 0]);
    const { summary } = findingOf({ ...made, measures: { ...made.measures, loss: estimate(0.045, 0.05) } });
    expect(summary).toMatch(/as if it had lost 9\.5 % at most of its thrust\.$/);
  });

  const size = (value: number, half: number) => ({ value, unit: "m", low: value - half, high: value + half });

  test("tell what speed and wind moved from what the balance did, in both directions", () => {
    const made = evidence([0, 0, 0.12, 0]);
    const { meaning } = findingOf({
      ...made,
      measures: {
        ...made.measures,
        "speed-shift-forward": size(0.008, 0.002),
        "speed-shift-right": size(-0.003, 0.001),
        "wind-shift-forward": size(0.0001, 0.002),
        "wind-shift-right": size(0.002, 0.001),
      },
    });
    expect(meaning).toMatch(/the load moves 8 mm forward and 3 mm to the left: that part comes from the air/);
    expect(meaning).toMatch(/Between legs out and back of one speed it moves 4 mm to the right: .* wind/);
  });

  test("tell when all motors together are asked for more than in the baseline, and what masses explain of it", () => {
    const made = evidence([0, 0, 0.12, 0], { isAgainstBaseline: true });
    const withLoad = (load: number, mass?: number) =>
      findingOf({
        ...made,
        measures: {
          ...made.measures,
          load: { value: load, unit: "1" },
          ...(mass !== undefined && { "mass-change": { value: mass, unit: "1" } }),
        },
      }).meaning;
    expect(withLoad(0.12)).toMatch(/asked for 12 % more than in the baseline flight: more to carry/);
    expect(withLoad(0.12, 0.1)).toMatch(
      /By the masses in the aircraft files this flight needs 10 % more thrust than the baseline; all motors together are asked for 12 % more: what the masses leave unexplained is no more than air/,
    );
    expect(withLoad(-0.02, 0.1)).toMatch(/asked for 2\.0 % less: beyond the masses there is less to carry or denser/);
    expect(withLoad(0.03)).not.toMatch(/All motors together/);
  });

  test("tell work of motors against each other apart from damage", () => {
    const made = evidence([0, 0, 0.12, 0, 0, 0, 0, 0]);
    const residual = { value: 0.03, unit: "1", low: 0.02, high: 0.04 };
    expect(findingOf({ ...made, measures: { ...made.measures, residual } }).meaning).toMatch(
      /Of the sharing 3(\.0)? % makes neither lift nor moment/,
    );
  });
});

describe("words of two causes at once", () => {
  const measures = {
    "cg-forward": { value: 0.074, unit: "m", low: 0.072, high: 0.076 },
    "cg-right": { value: 0.02, unit: "m", low: 0.019, high: 0.021 },
    "spin-bias": estimate(-0.36),
    twist: estimate(-0.42, 0.03),
  };

  test("name both with their sizes and send people to mounting angles and balance before the propellers", () => {
    const { summary, meaning, next, pattern, besides, motor } = findingOf(
      evidence([0.54, -0.19, 0.29, -0.64], {
        pattern: "spin-pair",
        besides: "centre-of-gravity",
        motor: undefined as never,
        motors: [],
        measures,
      }),
    );
    expect({ pattern, besides, motor }).toEqual({ pattern: "spin-pair", besides: "centre-of-gravity" });
    expect(summary).toMatch(
      /^Two causes together explain .* hover: a lasting yaw moment puts 42 % \(between 39 and 45 %\) more on the clockwise propellers/,
    );
    expect(summary).toMatch(/; and the centre of gravity lies 74 mm forward and 20 mm to the right/);
    expect(meaning).toMatch(/One spin direction works harder.*Besides that: the weight does not sit in the middle/);
    expect(next[0]).toMatch(/angle on its arm/);
    expect(next[2]).toMatch(/centre of gravity/);
    expect(next[3]).toMatch(/propeller of every motor/);
  });

  test("name the weak motor though another cause hides its excess", () => {
    const { summary, meaning, next } = findingOf(
      evidence([0.16, -0.05, 0.13, -0.24], {
        motor: 2,
        motors: [2],
        besides: "spin-pair",
        measures: { ...measures, loss: estimate(0.15) },
      }),
    );
    expect(summary).toMatch(/Motor 1 .* is asked for 16 % .* more thrust than the mean of all motors\.$/);
    expect(summary).toMatch(/hover: motor 2 \(rear right\) pulls less than it should, as if it had lost 15 %/);
    expect(meaning).toMatch(/takes load off motor 2 \(rear right\), which is why another motor is asked for most/);
    expect(next[0]).toMatch(/propeller of motor 2/);
    expect(next.join(" ")).toMatch(/every other arm/);
  });

  test("say which of the two might do by itself, and which other two would", () => {
    const { meaning } = findingOf(
      evidence([0.2, 0, 0, -0.2], {
        pattern: "spin-pair",
        besides: "centre-of-gravity",
        motors: [],
        alternatives: ["centre-of-gravity"],
        alternativePairs: [["motor-group", "spin-pair"]],
        measures,
      }),
    );
    expect(meaning).toMatch(
      /does not tell it from a centre of gravity off the middle by itself, or motors of one side/,
    );
    expect(meaning).toMatch(/together with a twisted motor/);
  });
});

describe("words of a refused baseline", () => {
  const load = { total: 0.45, mass: 0.4, unexplained: 0.036, voltage: 0.98 };

  test("say what differs, whether voltage was allowed for and what the masses explain", () => {
    expect(refusalWords({ kind: "refused", reason: "load-differs", load })).toBe(
      "The motors' total thrust demand is 45 % above the baseline's (battery voltage allowed for; the masses in the aircraft files differ by 40 %): too much for the same aircraft, so this flight was judged alone.",
    );
    expect(
      refusalWords({ kind: "refused", reason: "load-differs", load: { ...load, mass: null, voltage: null } }),
    ).toMatch(/battery voltage not known in both\)/);
  });

  test.each(["aircraft-differs", "no-steady-flight", "no-common-condition"] as const)("%s has words", (reason) => {
    expect(refusalWords({ kind: "refused", reason })).toMatch(/so this flight was judged alone\.$/);
  });
});
