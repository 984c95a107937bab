import { commandFraction, DEFAULT_THRUST_EXPONENT } from "../../aircraft/index.ts";
import { channelOf, type Flight } from "../../flight/index.ts";
import type { Series } from "../../log/channel.ts";

/** s, lag of a motor where the aircraft file has none (common practice for middling multirotors) */
const USUAL_LAG = 0.05;

/** Whether every motor of the aircraft file has a command that its speed can be told by. */
export function hasMotorDrives(flight: Flight): boolean {
  const { aircraft } = flight;
  return aircraft !== null && [...aircraft.motors.keys()].every((motor) => commandsOf(flight, motor) !== undefined);
}

function commandsOf(flight: Flight, motor: number): Series | undefined {
  const series = channelOf(flight, `motor.${motor + 1}.command`)?.series;
  return series === undefined || series.time.length < 2 ? undefined : series;
}

/**
 * What each motor's speed goes with: thrust goes with the square of speed and with the command fraction to the power of
 * the thrust exponent, so speed with the fraction to half of it, behind by the motor's lag.
 * @returns one series per motor of the aircraft file; none where `hasMotorDrives` says no
 */
export function motorDrives(flight: Flight): Series[] {
  const { aircraft } = flight;
  if (aircraft === null) return [];
  const lag = aircraft.thrust.timeConstant?.value ?? USUAL_LAG;
  const exponent = (aircraft.thrust.exponent ?? DEFAULT_THRUST_EXPONENT) / 2;
  const drives: Series[] = [];
  for (const motor of aircraft.motors.keys()) {
    const series = commandsOf(flight, motor);
    if (series === undefined) return [];
    const { time, values } = series;
    const fraction = (command: number) => Math.min(1, Math.max(0, commandFraction(aircraft.command, command)));
    let reached = fraction(values[0]!);
    const drive = values.map((command, k) => {
      const since = k === 0 ? 0 : time[k]! - time[k - 1]!;
      reached += (fraction(command) - reached) * (1 - Math.exp(-since / lag));
      return reached ** exponent;
    });
    drives.push({ time, values: drive });
  }
  return drives;
}
