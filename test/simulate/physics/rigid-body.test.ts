import { expect, test } from "vitest";
import { createRigidBody, STATE, type Surroundings } from "../../../src/simulate/physics/rigid-body.ts";
import { createVehicle } from "../../../src/simulate/physics/vehicle.ts";
import { builtInAircraft } from "../support/flights.ts";

function freeBody() {
  const vehicle = createVehicle(
    builtInAircraft("survey-quad"),
    {
      mass: 14,
      inertia: [0.8, 1.1, 1.7],
      centre: { x: 0, y: 0 },
      drag: { linear: 0, heave: 0, area: 0 },
      pitching: { moment: 0, slope: 0 },
      flapping: 0,
      damping: 0,
    },
    9.80665,
  );
  const around: Surroundings = {
    gravity: 9.80665,
    density: 1.225,
    wind: new Float64Array(3),
    push: new Float64Array(6),
    command: new Float64Array(4),
    thrustFactor: 1,
  };
  return { vehicle, around, body: createRigidBody(vehicle, around) };
}

test("a body without thrust and drag keeps energy and angular momentum to 1e-6 over a minute of tumbling", () => {
  const { vehicle, around, body } = freeBody();
  const { state } = body;
  state.set([0, 0, -100], STATE.position);
  state.set([3, -2, -40], STATE.velocity);
  state.set([0.9, 2.1, -1.4], STATE.rate);
  const energy = () => {
    const [vx, vy, vz] = state.subarray(STATE.velocity, STATE.velocity + 3);
    const turning = [0, 1, 2].reduce((sum, k) => sum + 0.5 * vehicle.inertia[k]! * state[STATE.rate + k]! ** 2, 0);
    return 0.5 * vehicle.mass * (vx! ** 2 + vy! ** 2 + vz! ** 2) - vehicle.mass * around.gravity * state[2]! + turning;
  };
  const momentum = () => {
    const [a, b, c, d] = state.subarray(STATE.attitude, STATE.attitude + 4) as unknown as [
      number,
      number,
      number,
      number,
    ];
    const h = [0, 1, 2].map((k) => vehicle.inertia[k]! * state[STATE.rate + k]!) as [number, number, number];
    // Body to earth by the quaternion.
    return [
      (a * a + b * b - c * c - d * d) * h[0] + 2 * (b * c - a * d) * h[1] + 2 * (b * d + a * c) * h[2],
      2 * (b * c + a * d) * h[0] + (a * a - b * b + c * c - d * d) * h[1] + 2 * (c * d - a * b) * h[2],
      2 * (b * d - a * c) * h[0] + 2 * (c * d + a * b) * h[1] + (a * a - b * b - c * c + d * d) * h[2],
    ];
  };
  const energyBefore = energy();
  const before = momentum();
  for (let n = 0; n < 60_000; n++) body.step(0.001);
  expect(Math.abs(energy() / energyBefore - 1)).toBeLessThan(1e-6);
  const size = Math.hypot(...before);
  for (const [k, value] of momentum().entries()) expect(Math.abs(value - before[k]!) / size).toBeLessThan(1e-6);
});

test("a rotor follows its command with a first-order lag: 63 % after one time constant", () => {
  const { around, body } = freeBody();
  around.command.fill(0.5);
  for (let n = 0; n < 60; n++) body.step(0.001);
  expect(body.state[STATE.rotor]! / 0.5).toBeCloseTo(1 - Math.exp(-1), 6);
});

test("a falling body is weightless to its accelerometer", () => {
  const { body } = freeBody();
  body.step(0.001);
  expect(Math.hypot(...body.specificForce)).toBe(0);
});
