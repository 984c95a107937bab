import type { Aircraft } from "../../aircraft/index.ts";
import type { Scenario } from "../scenario/scenario.ts";

export type ColumnGroup = keyof Scenario["log"]["every"];

/** How one channel is written: its column's name, unit and rounding, and the group that sets how often. */
export interface ColumnFormat {
  readonly channel: string;
  readonly column: string;
  /** a unit of the channel map */
  readonly unit: string;
  /** unit per SI unit: the cell is value * scale */
  readonly scale: number;
  readonly decimals: number;
  readonly group: ColumnGroup;
}

const DEGREES = 180 / Math.PI;

/** The columns of a simulated log, in the order in which they are written. */
export function logColumns(aircraft: Aircraft, omit: readonly string[]): ColumnFormat[] {
  const all: ColumnFormat[] = [];
  const add = (
    group: ColumnGroup,
    channel: string,
    column: string,
    unit: string,
    decimals: number,
    scale = 1,
  ): unknown => all.push({ channel, column, unit, scale, decimals, group });
  const axes = ["roll", "pitch", "yaw"] as const;
  for (const axis of axes) {
    add("rates", `rate.${axis}.measured`, `${axis}_rate_deg_s`, "deg/s", 2, DEGREES);
    add("rates", `rate.${axis}.setpoint`, `${axis}_rate_demand_deg_s`, "deg/s", 2, DEGREES);
  }
  for (const axis of axes) {
    add("loops", `rate.${axis}.integrator`, `${axis}_rate_integral`, "1", 4);
    add("loops", `rate.${axis}.output`, `${axis}_rate_output`, "1", 4);
  }
  for (const axis of axes) {
    add("attitude", `attitude.${axis}.measured`, `${axis}_deg`, "deg", 2, DEGREES);
    add("attitude", `attitude.${axis}.setpoint`, `${axis}_demand_deg`, "deg", 2, DEGREES);
  }
  const { unit, min, max } = aircraft.command;
  const suffix = unit === "1" ? "command" : unit === "%" ? "percent" : unit;
  // A pulse of whole microseconds, or a thousand steps or more over the range.
  const decimals = unit === "us" ? 0 : Math.max(0, Math.ceil(3 - Math.log10(max - min)));
  for (const i of aircraft.motors.keys()) {
    add("motors", `motor.${i + 1}.command`, `motor_${i + 1}_${suffix}`, unit, decimals);
  }
  for (const i of aircraft.motors.keys()) {
    add("speeds", `motor.${i + 1}.speed`, `motor_${i + 1}_speed_rpm`, "rpm", 0, 30 / Math.PI);
  }
  add("loops", "collective.demand", "thrust_demand", "1", 3);
  for (const axis of ["x", "y", "z"]) {
    add("accelerations", `acceleration.${axis}`, `acceleration_${axis}_m_s2`, "m/s^2", 2);
  }
  add("navigation", "altitude", "altitude_m", "m", 2);
  for (const way of ["north", "east", "down", "forward", "right"]) {
    add("navigation", `velocity.${way}`, `velocity_${way}_m_s`, "m/s", 2);
  }
  add("navigation", "speed.ground", "ground_speed_m_s", "m/s", 2);
  add("navigation", "speed.air", "airspeed_m_s", "m/s", 1);
  add("navigation", "heading", "heading_deg", "deg", 1, DEGREES);
  add("battery", "battery.voltage", "battery_v", "V", 2);
  add("battery", "battery.current", "battery_a", "A", 1);
  return all.filter(({ channel }) => !omit.some((name) => channel === name || channel.startsWith(`${name}.`)));
}
