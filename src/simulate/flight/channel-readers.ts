import { type ControlSignals, wrap } from "../control/controller.ts";
import type { Plan } from "../mission/plan.ts";
import type { Battery } from "../physics/battery.ts";
import { type RigidBody, STATE } from "../physics/rigid-body.ts";
import type { Setup } from "../scenario/setup.ts";

/** The living parts of a flight that a logger looks at. */
export interface Observable {
  readonly setup: Setup;
  readonly signals: ControlSignals;
  readonly fraction: Float64Array;
  readonly rotorSpeed: Float64Array;
  readonly battery: Battery;
  readonly acceleration: Float64Array;
  readonly body: RigidBody;
  readonly isAloft: () => boolean;
  readonly plan: Plan;
  readonly tick: () => number;
}

/** What is written down at each row, by contract name; names that begin with `true.` are for the truth alone. */
export function channelReaders(from: Observable): Map<string, () => number> {
  const { setup, signals, fraction, rotorSpeed, battery, acceleration, body, plan, tick } = from;
  const { state } = body;
  const { min, max } = setup.scenario.aircraft.command;
  const map = new Map<string, () => number>();
  for (const [k, axis] of (["roll", "pitch", "yaw"] as const).entries()) {
    map.set(`rate.${axis}.measured`, () => signals.rateMeasured[k]!);
    map.set(`rate.${axis}.setpoint`, () => signals.rateSetpoint[k]!);
    map.set(`rate.${axis}.integrator`, () => signals.integrator[k]!);
    map.set(`rate.${axis}.output`, () => signals.output[k]!);
    map.set(`attitude.${axis}.measured`, () => wrap(signals.attitudeMeasured[k]!));
    map.set(`attitude.${axis}.setpoint`, () => wrap(signals.attitudeSetpoint[k]!));
    map.set(`true.${axis}`, () => state[STATE.rate + k]!);
  }
  for (let i = 0; i < fraction.length; i++) {
    map.set(`motor.${i + 1}.command`, () => min + fraction[i]! * (max - min));
    map.set(`motor.${i + 1}.speed`, () => rotorSpeed[i]!);
  }
  const heading = () => signals.attitudeMeasured[2]!;
  map.set("collective.demand", () => signals.collective);
  map.set("acceleration.x", () => acceleration[0]!);
  map.set("acceleration.y", () => acceleration[1]!);
  map.set("acceleration.z", () => acceleration[2]!);
  map.set("altitude", () => -signals.position[2]!);
  map.set("velocity.north", () => signals.velocity[0]!);
  map.set("velocity.east", () => signals.velocity[1]!);
  map.set("velocity.down", () => signals.velocity[2]!);
  map.set("velocity.forward", () => along(signals.velocity, heading()));
  map.set("velocity.right", () => along(signals.velocity, heading() + Math.PI / 2));
  map.set("speed.ground", () => Math.hypot(signals.velocity[0]!, signals.velocity[1]!));
  map.set("speed.air", () => Math.hypot(body.airVelocity[0]!, body.airVelocity[1]!, body.airVelocity[2]!));
  map.set("heading", () => (heading() + 2 * Math.PI) % (2 * Math.PI));
  map.set("battery.voltage", () => battery.voltage);
  map.set("battery.current", () => battery.current);
  map.set("true.aloft", () => (from.isAloft() ? 1 : 0));
  map.set("true.mode", () => plan.mode[tick()]!);
  return map;
}

function along(velocity: Float64Array, heading: number): number {
  return Math.cos(heading) * velocity[0]! + Math.sin(heading) * velocity[1]!;
}
