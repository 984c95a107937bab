import { expect, test } from "vitest";
import { parseAircraft } from "../../src/aircraft/index.ts";

const HERON = `name: Heron four
mass: { value: 14.0, error: 0.2 }
motors:
  - { x: 0.42, y: -0.42, spin: cw, label: front left }
  - { x: 0.42, y: 0.42, spin: ccw }
  - { x: -0.42, y: 0.42, spin: cw }
  - { x: -0.42, y: -0.42, spin: ccw }
command: { unit: us, min: 1050, max: 1950, idle: 1110 }
thrust:
  exponent: 2
  torque-ratio: 0.018
  time-constant: 0.06
integrator-limit: { roll: 0.3 }
notes: { battery: "12S 22 Ah", pack: 3 }
`;

const failing = (text: string) => {
  try {
    parseAircraft(text, "heron.aircraft.yaml");
  } catch (error) {
    return (error as Error).message;
  }
  throw new Error("expected the file to be refused");
};

test("an aircraft file becomes an aircraft with labels made from positions where it gives none", () => {
  const aircraft = parseAircraft(HERON, "heron.aircraft.yaml");
  expect(aircraft.mass).toEqual({ value: 14, error: 0.2 });
  expect(aircraft.thrust).toEqual({
    exponent: 2,
    max: null,
    torqueRatio: 0.018,
    timeConstant: { value: 0.06, error: null },
  });
  expect(aircraft.motors.map((motor) => motor.label)).toEqual(["front left", "front right", "rear right", "rear left"]);
  expect(aircraft.command.idle).toBe(1110);
  expect(aircraft.notes).toEqual({ battery: "12S 22 Ah", pack: "3" });
});

test("idle is min where the file does not say", () => {
  const aircraft = parseAircraft(HERON.replace(", idle: 1110", ""), "f");
  expect(aircraft.command.idle).toBe(1050);
});

test.each([
  [
    "a wrong spin",
    HERON.replace("spin: cw, label", "spin: left, label"),
    /^heron\.aircraft\.yaml:4, key motors\.0\.spin: /,
  ],
  ["an unknown key", HERON.replace("torque-ratio", "torqueratio"), /:11, key thrust\.torqueratio: /],
  ["a missing key", HERON.replace(/command:.*\n/, ""), /heron\.aircraft\.yaml:1, key command: /],
  [
    "a range upside down",
    HERON.replace("max: 1950", "max: 950"),
    /:8, key command\.max: max 950 is not above min 1050/,
  ],
  ["an idle outside the range", HERON.replace("idle: 1110", "idle: 900"), /:8, key command\.idle: /],
  ["two motors", HERON.replace(/ {2}- \{ x: -0\.42.*\n/g, ""), /key motors: an aircraft needs at least 3 motors/],
  ["positions in millimetres", HERON.replaceAll("0.42", "420"), /give positions in metres/],
  ["broken YAML", HERON.replace("{ unit: us", "{ unit us: : ["), /heron\.aircraft\.yaml:\d+: not valid YAML/],
  ["a key given twice", `${HERON}mass: 3\n`, /heron\.aircraft\.yaml:15: not valid YAML: map keys must be unique/],
  ["an empty file", "", /heron\.aircraft\.yaml: /],
])("%s is refused in one line with line and key", (_, text, message) => {
  expect(failing(text)).toMatch(message);
  expect(failing(text)).not.toContain("\n");
});
