import { type Aircraft, commandFraction } from "../../aircraft/index.ts";
import { controlAxes } from "../control/control-axes.ts";
import { type Gains, tuneGains } from "../control/tune-gains.ts";
import type { BatterySettings } from "../physics/battery.ts";
import type { RotorSettings } from "../physics/rotor-power.ts";
import { type Body, createVehicle, TYPICAL, type Vehicle } from "../physics/vehicle.ts";
import type { Scenario } from "./scenario.ts";

/** m/s^2, standard gravity (ISO 80000-3) */
export const GRAVITY = 9.80665;

/** A scenario with every number that it left open filled in, ready to fly. */
export interface Setup {
  readonly scenario: Scenario;
  /** without faults */
  readonly vehicle: Vehicle;
  readonly rotor: RotorSettings;
  readonly battery: BatterySettings;
  readonly gains: Gains;
  /** largest integral term per axis */
  readonly integratorLimit: readonly [number, number, number];
  /** N m rms of unsteady flow through the rotors */
  readonly unrest: number;
  /** command fraction of the armed floor */
  readonly idle: number;
}

/** Fills what the scenario leaves open with values in proportion to the aircraft's mass and size. */
export function setUp(scenario: Scenario): Setup {
  const { aircraft, controller, sensors } = scenario;
  const body = completeBody(scenario);
  const vehicle = createVehicle(aircraft, body, GRAVITY);
  const rotor = completeRotor(scenario, vehicle);
  const axes = controlAxes(aircraft, vehicle);
  const limit = controller.limit;
  return {
    scenario,
    vehicle,
    rotor,
    battery: completeBattery(scenario, vehicle, rotor),
    gains: tuneGains({
      controller,
      axes,
      inertia: body.inertia,
      lag: vehicle.lag[0]!,
      gyroLowpass: sensors.gyro.lowpass,
    }),
    integratorLimit: [
      limit?.roll ?? aircraft.integratorLimit.roll ?? 0.3,
      limit?.pitch ?? aircraft.integratorLimit.pitch ?? 0.3,
      limit?.yaw ?? aircraft.integratorLimit.yaw ?? 0.3,
    ],
    unrest: scenario.air.unrest ?? 0.2 * body.inertia[0],
    idle: commandFraction(aircraft.command, aircraft.command.idle),
  };
}

function massOf(aircraft: Aircraft): number {
  return aircraft.mass?.value ?? TYPICAL.mass;
}

function meanSquare(aircraft: Aircraft, axis: "x" | "y"): number {
  return aircraft.motors.reduce((sum, motor) => sum + motor[axis] ** 2, 0) / aircraft.motors.length;
}

/** Ratios of aircraft between half a kilogram and thirty: a third of the mass sits at the motors, and so on. */
function completeBody({ aircraft, body }: Scenario): Body {
  const mass = body.mass ?? massOf(aircraft);
  const roll = body.inertia?.roll ?? 0.32 * mass * meanSquare(aircraft, "y");
  const pitch = body.inertia?.pitch ?? 0.32 * mass * meanSquare(aircraft, "x");
  const yaw = body.inertia?.yaw ?? 0.9 * (roll + pitch);
  const reach = Math.sqrt(meanSquare(aircraft, "x") + meanSquare(aircraft, "y"));
  return {
    mass,
    inertia: [roll, pitch, yaw],
    centre: body.centre,
    drag: {
      linear: body.drag.linear ?? 0.03 * mass,
      heave: body.drag.heave ?? 0.06 * mass * GRAVITY,
      area: body.drag.area ?? 0.02 * mass ** (2 / 3),
    },
    pitching: body.pitching,
    flapping: body.flapping ?? 0.0012 * mass * GRAVITY * reach,
    damping: body.damping ?? 0.75 * (roll + pitch),
  };
}

function completeRotor({ aircraft, rotors }: Scenario, vehicle: Vehicle): RotorSettings {
  const mass = massOf(aircraft);
  const discLoading = 55 * mass ** 0.3;
  const radius = rotors.radius ?? Math.sqrt((mass * GRAVITY) / (vehicle.motors * discLoading * Math.PI));
  return {
    radius,
    merit: rotors.merit,
    // 150 m/s at the tip of the blade at full command
    speed: rotors.speed ?? 150 / radius,
    imbalance: rotors.imbalance ?? 0.006 * vehicle.maxThrust[0]!,
  };
}

function completeBattery({ aircraft, battery, air }: Scenario, vehicle: Vehicle, rotor: RotorSettings) {
  const mass = massOf(aircraft);
  const cells = mass < 1 ? 3 : mass < 3 ? 4 : mass < 8 ? 6 : 12;
  const full = battery.full ?? 4.2 * cells;
  const nominal = battery.nominal ?? 0.93 * full;
  const thrust = (mass * GRAVITY) / vehicle.motors;
  const disc = Math.PI * rotor.radius ** 2;
  const shaft = (vehicle.motors * thrust ** 1.5) / Math.sqrt(2 * air.density * disc) / rotor.merit;
  const power = shaft / battery.efficiency + battery.avionics;
  return {
    full,
    nominal,
    empty: battery.empty ?? 0.83 * full,
    // 25 minutes of hover, of which a twenty-fifth of the voltage is lost inside
    capacity: battery.capacity ?? ((power / nominal) * 25) / 60,
    resistance: battery.resistance ?? (0.04 * nominal * nominal) / power,
    avionics: battery.avionics,
    efficiency: battery.efficiency,
    sag: battery.sag,
  } satisfies BatterySettings;
}
