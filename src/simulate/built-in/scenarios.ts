import type { Aircraft } from "../../aircraft/index.ts";
import { defineScenario, type Scenario, type ScenarioInput } from "../scenario/scenario.ts";
import { BUILT_IN_AIRCRAFT } from "./aircraft.ts";

const survey = BUILT_IN_AIRCRAFT["survey-quad"]!;

function surveyWith(mass: number, notes: Readonly<Record<string, string>>): Aircraft {
  return { ...survey, mass: { value: mass, error: 0.2 }, notes: { ...survey.notes, ...notes } };
}

/** The survey crew's aircraft in all its flights: short boom, one set of gains. */
const crew = {
  body: {
    inertia: { roll: 0.8, pitch: 0.95, yaw: 1.5 },
    centre: { x: 0.008, y: 0 },
    pitching: { moment: -0.03, slope: 0.03 },
  },
  controller: {
    attitude: { roll: 3.5, pitch: 3.5, yaw: 1 },
    scale: {
      p: { roll: 1.5, pitch: 1.6, yaw: 1 },
      i: { roll: 2.5, pitch: 3, yaw: 1 },
      d: { roll: 1, pitch: 1, yaw: 1 },
    },
    allocation: "clip",
  },
} satisfies Partial<ScenarioInput>;

const steps = (seconds: number): ScenarioInput["mission"] => [
  { do: "take-off", height: 15 },
  { do: "hover", seconds: 12 },
  { do: "legs", speeds: [3, 6, 9, 12], seconds, heading: 35, acceleration: 1.8, turn: 45 },
  { do: "hover", seconds: 6 },
  { do: "land" },
];

const scenarios: readonly ScenarioInput[] = [
  {
    name: "short-boom",
    story:
      "The survey quadrotor with its short sensor boom flies up and down a field at 3, 6, 9 and 12 m/s in a light " +
      "wind. Nothing is wrong; this is the flight to compare with.",
    seed: 11,
    aircraft: surveyWith(14, { boom: "short, 0.9 m", gains: "set 7" }),
    ...crew,
    air: { wind: { speed: 2.5, from: 60 }, gusts: 5 },
    mission: steps(14),
  },
  {
    name: "long-boom",
    story:
      "The same quadrotor with the longer boom, on the same gains. In the fourth speed step the pitch oscillates " +
      "and grows, a rear motor rests on its floor and the pitch integrator winds up.",
    seed: 12,
    aircraft: surveyWith(14.5, { boom: "long, 2.1 m", gains: "set 7" }),
    ...crew,
    air: { wind: { speed: 2.5, from: 60 }, gusts: 5 },
    mission: steps(14),
    faults: [
      { kind: "boom", mass: 0.55, reach: 1.65, moment: -0.03, slope: 0.13 },
      { kind: "motor-tilt", motor: 3, degrees: 1.5 },
    ],
  },
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
