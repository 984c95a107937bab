import type { Aircraft, Motor } from "../../aircraft/index.ts";

/** Motor places of the usual layouts, in the order that crews count them: from front left, clockwise. */
function ring(angles: readonly number[], reach: number, spins: readonly Motor["spin"][], labels: readonly string[]) {
  return angles.map((degrees, i): Motor => {
    const angle = (degrees * Math.PI) / 180;
    return {
      x: round(reach * Math.cos(angle)),
      y: round(reach * Math.sin(angle)),
      spin: spins[i]!,
      label: labels[i]!,
      maxThrust: null,
    };
  });
}

const round = (value: number) => Math.round(value * 1000) / 1000;
const CORNERS = ["front left", "front right", "rear right", "rear left"];
const alternating = (count: number) =>
  Array.from({ length: count }, (_, i): Motor["spin"] => (i % 2 === 0 ? "cw" : "ccw"));

interface Sizes {
  readonly name: string;
  readonly mass: number;
  readonly motors: readonly Motor[];
  /** N of one motor */
  readonly thrust: number;
  readonly torqueRatio: number;
  readonly lag: number;
  readonly command?: Aircraft["command"];
  readonly limit?: number;
  readonly notes?: Readonly<Record<string, string>>;
}

function aircraft({ name, mass, motors, thrust, torqueRatio, lag, command, limit = 0.3, notes = {} }: Sizes): Aircraft {
  return {
    name,
    mass: { value: mass, error: null },
    motors,
    command: command ?? { unit: "us", min: 1000, max: 2000, idle: 1080 },
    thrust: { exponent: 2, max: thrust, torqueRatio, timeConstant: { value: lag, error: null } },
    integratorLimit: { roll: limit, pitch: limit, yaw: limit },
    notes,
  };
}

const corners = (reach: number) => ring([-45, 45, 135, -135], reach, alternating(4), CORNERS);

/** Aircraft to fly scenarios with, by name. */
export const BUILT_IN_AIRCRAFT: Readonly<Record<string, Aircraft>> = {
  "survey-quad": aircraft({
    name: "Survey quadrotor",
    mass: 14,
    motors: corners(0.594),
    thrust: 136,
    torqueRatio: 0.022,
    lag: 0.06,
    command: { unit: "us", min: 1050, max: 1950, idle: 1110 },
    notes: { battery: "12S 22 Ah" },
  }),
  "small-quad": aircraft({
    name: "Small quadrotor",
    mass: 1.5,
    motors: corners(0.212),
    thrust: 14.5,
    torqueRatio: 0.016,
    lag: 0.03,
  }),
  hexa: aircraft({
    name: "Hexarotor",
    mass: 6,
    motors: ring([-30, 30, 90, 150, -150, -90], 0.48, alternating(6), [
      "front left",
      "front right",
      "right",
      "rear right",
      "rear left",
      "left",
    ]),
    thrust: 38,
    torqueRatio: 0.018,
    lag: 0.045,
  }),
  octo: aircraft({
    name: "Flat octorotor",
    mass: 9,
    motors: ring([-22.5, 22.5, 67.5, 112.5, 157.5, -157.5, -112.5, -67.5], 0.55, alternating(8), [
      "front left",
      "front right",
      "right front",
      "right rear",
      "rear right",
      "rear left",
      "left rear",
      "left front",
    ]),
    thrust: 42,
    torqueRatio: 0.018,
    lag: 0.05,
  }),
  "coaxial-octo": aircraft({
    name: "Coaxial octorotor",
    mass: 12,
    motors: corners(0.5).flatMap((motor, i): Motor[] => [
      { ...motor, label: `${motor.label} upper` },
      // The lower rotor works in the upper one's wash.
      { ...motor, spin: i % 2 === 0 ? "ccw" : "cw", label: `${motor.label} lower`, maxThrust: 44 },
    ]),
    thrust: 55,
    torqueRatio: 0.019,
    lag: 0.055,
  }),
};
