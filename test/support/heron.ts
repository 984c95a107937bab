import { parseAircraft } from "../../src/aircraft/index.ts";

/** The survey crew's quadrotor: motors from the front left, clockwise. */
export const HERON = parseAircraft(
  `name: Heron four
mass: 14
motors:
  - { x: 0.42, y: -0.42, spin: cw, label: front left }
  - { x: 0.42, y: 0.42, spin: ccw, label: front right }
  - { x: -0.42, y: 0.42, spin: cw, label: rear right }
  - { x: -0.42, y: -0.42, spin: ccw, label: rear left }
command: { unit: us, min: 1050, max: 1950, idle: 1110 }
thrust: { exponent: 2, max: 62, torque-ratio: 0.018 }
`,
  "heron.aircraft.yaml",
);
