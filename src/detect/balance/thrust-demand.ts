import { DEFAULT_THRUST_EXPONENT, thrustsOf } from "../../aircraft/index.ts";
import { channelOf, type Flight } from "../../flight/index.ts";
import type { Series, Span } from "../../log/channel.ts";
import { seriesWithin } from "../air-time.ts";

/** What each motor was asked to give, as a share of its largest thrust or, from rotor speed, in proportion to thrust. */
export interface ThrustDemand {
  /** `speed`: the square of the logged rotor speed; `command`: the command through the thrust curve */
  readonly from: "speed" | "command";
  /** what was asked within a span: one series per motor of the aircraft file, in its order */
  within(span: Span): Series[];
  /** with which power of the battery's voltage thrust at a given demand goes: 0 where rotor speed tells thrust */
  readonly voltageExponent: number;
}

/**
 * Thrust demand of every motor: (command fraction)^exponent, or rotor speed squared where every motor's speed is
 * logged, because speed makes thrust whatever the battery does.
 * @param options `commandOnly` leaves rotor speeds aside
 * @returns null without an aircraft file or where a motor has neither
 */
export function thrustDemand(flight: Flight, options: { commandOnly?: boolean } = {}): ThrustDemand | null {
  const { aircraft } = flight;
  if (aircraft === null) return null;
  const seriesOf = (part: string) =>
    aircraft.motors.map((_, i) => channelOf(flight, `motor.${i + 1}.${part}`)?.series ?? null);
  const speeds = seriesOf("speed");
  if (!options.commandOnly && speeds.every((series) => series !== null && coversFlight(series, flight))) {
    const squares = (values: Float64Array) => values.map((speed) => speed * speed);
    return {
      from: "speed",
      voltageExponent: 0,
      within: (span) => speeds.map((series) => demandOf(series!, span, squares)),
    };
  }
  const commands = seriesOf("command");
  if (commands.some((series) => series === null)) return null;
  return {
    from: "command",
    voltageExponent: aircraft.thrust.exponent ?? DEFAULT_THRUST_EXPONENT,
    within: (span) => commands.map((series) => demandOf(series!, span, (values) => thrustsOf(aircraft, 1, values))),
  };
}

/** A speed sensor that was silent for much of the flight, or saw no rotor turn, is no measure of thrust. */
function coversFlight({ time, values }: Series, { airborne }: Flight): boolean {
  const inAir = airborne.reduce((sum, { start, end }) => sum + end - start, 0);
  const [first, last] = [time[0] ?? 0, time.at(-1) ?? 0];
  return last - first > 0.8 * inAir && values.some((value) => value > 0);
}

function demandOf(series: Series, span: Span, thrusts: (values: Float64Array) => Float64Array): Series {
  const { time, values } = seriesWithin(series, span);
  return { time, values: thrusts(values) };
}
