import type { FaultInput } from "../faults/fault.ts";
import type { ScenarioInput } from "../scenario/scenario.ts";
import { BUILT_IN_AIRCRAFT } from "./aircraft.ts";

/** A minute of hover by which a fault comes in at 20 s, on an aircraft of the list. */
function hoverWith(name: string, story: string, aircraft: string, fault: FaultInput): ScenarioInput {
  return {
    name,
    story,
    aircraft: BUILT_IN_AIRCRAFT[aircraft]!,
    mission: [{ do: "take-off", height: 10 }, { do: "hover", seconds: 45 }, { do: "land" }],
    faults: [fault],
  };
}

/** One fault each, to see what it looks like; a scenario file can change its size, start or aircraft. */
export const SINGLE_FAULTS: readonly ScenarioInput[] = [
  hoverWith(
    "late-roll-loop",
    "The roll output reaches the motors a little later from 20 s on, and an oscillation grows until that is mended five seconds later.",
    "survey-quad",
    { kind: "loop-delay", axis: "roll", start: 20, end: 25, delay: 0.135 },
  ),
  hoverWith(
    "light-damping",
    "The pitch gains are raised until hardly any damping is left: every gust makes the aircraft ring, nothing grows.",
    "hexa",
    { kind: "light-damping", axis: "pitch", start: 20, damping: 0.05 },
  ),
  hoverWith(
    "shaken-from-outside",
    "A periodic moment from outside grows on the roll axis. The controller works against it and is not its cause.",
    "survey-quad",
    { kind: "periodic-moment", axis: "roll", start: 20, frequency: 1.5, size: 0.3, growth: 0.2, most: 4 },
  ),
  hoverWith(
    "swinging-load",
    "A load of 2 kg on a line of 1.5 m is picked up while it swings, and swings with the aircraft.",
    "survey-quad",
    { kind: "swinging-load", start: 20, mass: 2, length: 1.5, swing: 0.3, below: 0.3 },
  ),
  hoverWith("motor-fades", "Motor 2 loses 30 % of its thrust in the middle of a hover.", "small-quad", {
    kind: "weak-motor",
    start: 20,
    motor: 2,
    loss: 0.3,
  }),
  hoverWith("damaged-blade", "A blade of motor 3 is nicked and shakes the aircraft at rotor frequency.", "octo", {
    kind: "damaged-blade",
    start: 20,
    motor: 3,
    force: 12,
    loss: 0.04,
  }),
  hoverWith(
    "yaw-wind-up",
    "For eight seconds the air turns the aircraft harder than its motors can hold: the yaw integrator winds up, and " +
      "the nose overshoots when it lets go.",
    "coaxial-octo",
    { kind: "wind-up", axis: "yaw", start: 20, end: 28, share: 1.3, ramp: 1 },
  ),
  hoverWith("kicked", "One knock on the roll axis at 20 s, from which the aircraft recovers by itself.", "small-quad", {
    kind: "kick",
    axis: "roll",
    start: 20,
    size: 0.4,
  }),
  {
    name: "broken-logger",
    story: "A sound flight, badly logged: rows missing, a stuck channel, repeated stamps, and a log that freezes.",
    aircraft: BUILT_IN_AIRCRAFT.hexa!,
    mission: [{ do: "take-off", height: 10 }, { do: "hover", seconds: 45 }, { do: "land" }],
    faults: [
      { kind: "log-gap", start: 18, end: 19.2 },
      { kind: "stuck-channel", channel: "rate.pitch.measured", start: 25, end: 28 },
      { kind: "repeated-stamps", start: 32, end: 40, every: 25 },
      { kind: "frozen-end", start: 55 },
    ],
  },
];
