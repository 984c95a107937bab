import type { Aircraft } from "../../aircraft/index.ts";
import { defineScenario, type Scenario, type ScenarioInput } from "../scenario/scenario.ts";
import { BUILT_IN_AIRCRAFT } from "./aircraft.ts";
import { SINGLE_FAULTS } from "./single-faults.ts";

const survey = BUILT_IN_AIRCRAFT["survey-quad"]!;

function surveyWith(mass: number, notes: Readonly<Record<string, string>>): Aircraft {
  const integratorLimit = { roll: 0.4, pitch: 0.4, yaw: 0.4 };
  return { ...survey, mass: { value: mass, error: 0.2 }, integratorLimit, notes: { ...survey.notes, ...notes } };
}

/** The survey crew's aircraft in all its flights: short boom, one set of gains. */
const crew = {
  body: {
    mass: 14,
    inertia: { roll: 0.8, pitch: 0.95, yaw: 1.5 },
    centre: { x: 0.008, y: 0 },
    pitching: { moment: -0.03, slope: 0.03 },
  },
  controller: {
    attitude: { roll: 3.5, pitch: 3.5, yaw: 1 },
    scale: {
      p: { roll: 1.6, pitch: 2, yaw: 1 },
      i: { roll: 2.5, pitch: 3, yaw: 1 },
      d: { roll: 1, pitch: 1, yaw: 1 },
    },
    allocation: "roll-pitch-priority",
  },
  // Sparse enough for a small file, dense enough for every loop.
  log: {
    rate: 100,
    every: { rates: 1, loops: 4, attitude: 5, motors: 2, speeds: 50, accelerations: 10, navigation: 20, battery: 50 },
    omit: ["speed.air", "velocity.forward", "velocity.right"],
  },
} satisfies Partial<ScenarioInput>;

const steps = (seconds: number): ScenarioInput["mission"] => [
  { do: "take-off", height: 15 },
  { do: "hover", seconds: 12 },
  { do: "legs", speeds: [4, 7, 10, 14], seconds, heading: 35, acceleration: 1.8, turn: 30 },
  { do: "hover", seconds: 6 },
  { do: "land" },
];

const scenarios: readonly ScenarioInput[] = [
  {
    name: "short-boom",
    story:
      "The survey quadrotor with its short sensor boom flies up and down a field at 4, 7, 10 and 14 m/s in a light " +
      "wind. Nothing is wrong; this is the flight to compare with.",
    seed: 11,
    aircraft: surveyWith(14, { boom: "short, 0.9 m", gains: "set 7" }),
    ...crew,
    air: { wind: { speed: 1.5, from: 60 }, gusts: 5 },
    mission: steps(13),
  },
  {
    name: "long-boom",
    story:
      "The same quadrotor with the longer boom, on the same gains. In the fourth speed step the pitch oscillates " +
      "and grows, a rear motor rests on its floor and the pitch integrator winds up.",
    seed: 12,
    aircraft: surveyWith(14.5, { boom: "long, 2.1 m", gains: "set 7" }),
    ...crew,
    air: { wind: { speed: 1.5, from: 60 }, gusts: 5 },
    mission: steps(13),
    faults: [
      { kind: "boom", mass: 0.55, reach: 1.65, moment: -0.02, slope: 0.18 },
      { kind: "motor-tilt", motor: 3, degrees: 2.6 },
      { kind: "cg-offset", x: 0, y: 0.02 },
    ],
  },
  {
    name: "hover-check",
    story:
      "A hover check after a repair: motor 2 gives less thrust than the others and motor 4 stands a little twisted " +
      "on its arm. The aircraft hovers steadily all the same; only the commands tell.",
    seed: 13,
    aircraft: surveyWith(14, { boom: "short, 0.9 m", gains: "set 7" }),
    ...crew,
    air: { wind: { speed: 1, from: 250 }, gusts: 3 },
    mission: [{ do: "take-off", height: 6 }, { do: "hover", seconds: 90 }, { do: "land" }],
    faults: [
      { kind: "weak-motor", motor: 2, loss: 0.15 },
      { kind: "motor-tilt", motor: 4, degrees: 2 },
    ],
  },
  {
    name: "gusty-day",
    story:
      "The short boom again, on a day with gusts: the attitude works hard and nothing is wrong. A diagnosis that " +
      "finds a fault here has been fooled by the wind.",
    seed: 14,
    aircraft: surveyWith(14, { boom: "short, 0.9 m", gains: "set 7" }),
    ...crew,
    air: { wind: { speed: 5, from: 100 }, gusts: 18 },
    mission: [
      { do: "take-off", height: 15 },
      { do: "hover", seconds: 30 },
      { do: "legs", speeds: [4, 7, 10], seconds: 12, heading: 35, acceleration: 1.8, turn: 30 },
      { do: "hover", seconds: 6 },
      { do: "land" },
    ],
  },
  ...SINGLE_FAULTS,
];

/** A built-in scenario as a list shows it. */
export interface BuiltInScenario {
  readonly name: string;
  readonly story: string;
}

/** Every built-in scenario, by name, with its story. */
export function listScenarios(): BuiltInScenario[] {
  return scenarios.map(({ name, story = "" }) => ({ name, story }));
}

/** The built-in scenario of this name; undefined if there is none. */
export function builtInScenario(name: string): Scenario | undefined {
  const found = scenarios.find((scenario) => scenario.name === name);
  return found === undefined ? undefined : defineScenario(found);
}
