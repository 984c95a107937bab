import type { ChannelKind } from "../channels/channel-names.ts";
import type { ColumnFacts } from "./column-facts.ts";

/** The unit that the size of the numbers speaks for. */
export interface UnitGuess {
  readonly unit: string;
  /** 0..1, how strongly */
  readonly confidence: number;
  /** factor on the cells, where no unit alone makes sense of them */
  readonly scale: number;
}

/** What the other columns of the log say, where one alone cannot tell. */
export interface UnitContext {
  /** lengths and speeds are whole numbers too large for metres: the log counts millimetres */
  readonly isMillimetric: boolean;
  /** median size of `acceleration.z`, which gravity rules; null where it is not logged */
  readonly gravity: number | null;
  /** limits over all motor commands; null where there are none */
  readonly commands: { readonly min: number; readonly max: number } | null;
}

/** rad/s; the fastest rate of turn that a multirotor is likely to reach, 2000 deg/s */
const FASTEST_TURN = 35;
/** rad; no one asks a multirotor for a steeper angle, 75 deg */
const STEEPEST_DEMAND = 1.3;
/** m/s; faster than any multirotor is likely to be logged */
const FASTEST_FLIGHT = 60;

/**
 * Guesses the unit of a column whose name states none, by the size of its numbers. Every guess has to be put to the
 * user as a question; null where there is nothing to guess from.
 */
export function guessUnit(
  kind: ChannelKind,
  words: readonly string[],
  facts: ColumnFacts,
  context: UnitContext,
): UnitGuess | null {
  if (facts.count === 0) return null;
  switch (kind.dimension) {
    case "angle":
      return guessAngle(kind, facts);
    case "angular-rate":
      return kind.motor === null ? guessRate(facts) : guessRotorSpeed(facts);
    case "length":
      return context.isMillimetric ? guess("mm", 0.85) : guess("m", facts.reach > 5000 ? 0.4 : 0.8);
    case "speed":
      if (context.isMillimetric) return guess("mm/s", 0.85);
      return facts.reach > FASTEST_FLIGHT ? guess("mm/s", 0.5) : guess("m/s", 0.8);
    case "acceleration":
      return guessAcceleration(context);
    case "voltage":
      return facts.reach > 1000 ? guess("mV", 0.95) : guess("V", 0.9);
    case "current":
      return facts.reach > 2000 ? guess("mA", 0.85) : guess("A", 0.85);
    case "power":
      return guess("W", 0.85);
    case "temperature":
      return guess("degC", 0.8);
    case "share":
      return guessShare(facts);
    case "command":
      return guessCommand(context.commands ?? facts);
    case "control":
      return words.some((word) => word === "torque" || word === "moment") ? guess("N*m", 0.6) : guess("1", 0.8);
    default:
      return null;
  }
}

const guess = (unit: string, confidence: number, scale = 1): UnitGuess => ({ unit, confidence, scale });

/** Angles in radian end at a full turn, and set points of roll and pitch long before. */
function guessAngle({ name }: ChannelKind, { reach }: ColumnFacts): UnitGuess {
  const isTilt = name.includes("roll") || name.includes("pitch");
  if (isTilt && name.endsWith("setpoint")) return reach > STEEPEST_DEMAND ? guess("deg", 0.85) : guess("rad", 0.75);
  if (isTilt) return reach > 1.05 * Math.PI ? guess("deg", 0.9) : guess("rad", 0.75);
  return reach > 2.1 * Math.PI ? guess("deg", 0.8) : guess("rad", 0.75);
}

function guessRate({ reach }: ColumnFacts): UnitGuess {
  if (reach > FASTEST_TURN) return guess("deg/s", 0.9);
  return guess("rad/s", reach > 6 ? 0.6 : 0.8);
}

/** Rotors of multirotors turn at 150 to 5000 rad/s: 1500 to 50,000 rpm, 25 to 800 Hz. */
function guessRotorSpeed({ reach }: ColumnFacts): UnitGuess {
  if (reach > 5000) return guess("rpm", 0.9);
  return reach > 1500 ? guess("rpm", 0.6) : guess("rad/s", 0.5);
}

function guessAcceleration({ gravity }: UnitContext): UnitGuess {
  if (gravity !== null && gravity > 0.7 && gravity < 1.3) return guess("g", 0.9);
  return guess("m/s^2", gravity !== null && gravity > 7 && gravity < 13 ? 0.95 : 0.5);
}

const FULL_16_BIT = 65535;

function guessShare({ min, max }: ColumnFacts): UnitGuess {
  if (min >= -0.05 && max <= 1.05) return guess("1", 0.9);
  if (min < -0.05) return guess("1", 0.3);
  if (max <= 105) return guess("%", max > 2 ? 0.8 : 0.4);
  return max <= FULL_16_BIT ? guess("1", 0.5, 1 / FULL_16_BIT) : guess("1", 0.2);
}

function guessCommand({ min, max }: { min: number; max: number }): UnitGuess {
  if (max <= 1.05) return guess("1", 0.9);
  if (max <= 105) return guess("%", min >= 0 ? 0.8 : 0.4);
  return max >= 700 && max <= 2600 && min >= 0 ? guess("us", 0.9) : guess("1", 0.7);
}
