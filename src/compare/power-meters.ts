import { commandFraction } from "../aircraft/index.ts";
import { channelOf, commandedMotors, commandLimits, type Flight } from "../flight/index.ts";
import { meanOver } from "./mean-over.ts";
import type { Meter } from "./quantity.ts";

/** Electrical power where it is logged or follows from voltage and current; and what stands in for it where it is not. */
export function powerMeters(flight: Flight): Meter[] {
  const measure = electricalPower(flight);
  const power: Meter[] =
    measure === null
      ? []
      : [{ quantity: { key: "power", table: "power", unit: "W", scale: "ratio", better: "less" }, measure }];
  return [...power, ...substitutes(flight)];
}

/** How the power of a flight is known; null where no channel tells. */
export function powerSource(flight: Flight): "battery.power" | "battery.voltage x battery.current" | null {
  if (channelOf(flight, "battery.power") !== undefined) return "battery.power";
  const parts = ["battery.voltage", "battery.current"].map((name) => channelOf(flight, name));
  return parts.includes(undefined) ? null : "battery.voltage x battery.current";
}

function electricalPower(flight: Flight): Meter["measure"] | null {
  const power = channelOf(flight, "battery.power");
  if (power !== undefined) return (span) => aboveZero(meanOver([power], span, (p) => p!));
  const [voltage, current] = [channelOf(flight, "battery.voltage"), channelOf(flight, "battery.current")];
  if (voltage === undefined || current === undefined) return null;
  return (span) => aboveZero(meanOver([current, voltage], span, (amperes, volts) => amperes! * volts!));
}

/** Mean command of all motors, and mean rotor speed: they rise with power and say nothing about watts. */
function substitutes(flight: Flight): Meter[] {
  const meters: Meter[] = [];
  const motors = commandedMotors(flight);
  const limits = commandLimits(flight.log, flight.aircraft);
  if (motors.length > 0 && limits?.from === "aircraft") {
    const commands = motors.map((motor) => channelOf(flight, `motor.${motor}.command`)!);
    const fraction = (value: number) => commandFraction({ unit: "", ...limits }, value);
    meters.push({
      quantity: { key: "mean-command", table: "power", unit: "1", scale: "difference", better: "less" },
      measure: (span) => averageOf(commands.map((command) => meanOver([command], span, (value) => fraction(value!)))),
    });
  }
  const speeds = motors.map((motor) => channelOf(flight, `motor.${motor}.speed`));
  if (motors.length > 0 && speeds.every((speed) => speed !== undefined)) {
    meters.push({
      quantity: { key: "rotor-speed", table: "power", unit: "rad/s", scale: "ratio", better: "less" },
      measure: (span) => aboveZero(averageOf(speeds.map((speed) => meanOver([speed!], span, (value) => value!)))),
    });
  }
  return meters;
}

function averageOf(values: readonly (number | null)[]): number | null {
  if (values.length === 0 || values.includes(null)) return null;
  return (values as number[]).reduce((sum, value) => sum + value, 0) / values.length;
}

const aboveZero = (value: number | null) => (value !== null && value > 0 ? value : null);
