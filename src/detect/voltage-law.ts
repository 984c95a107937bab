import { leastSquaresOrNull, studentTQuantile } from "../signal/index.ts";
import type { SteadyPiece } from "./steady-pieces.ts";

/** How the thrust at a given command goes with battery voltage: as its `exponent`-th power. */
export interface VoltageLaw {
  /** 0 for drives that make up for the voltage, up to 2 for those that do not */
  readonly exponent: number;
  readonly standardError: number;
  readonly degreesOfFreedom: number;
}

/** The voltage has to differ by this share between pieces to tell anything. */
const LEAST_SPREAD = 0.015;
/** An exponent less sure than this (95 %) would spoil what it is meant to mend. */
const LARGEST_ERROR = 0.7;
const FEWEST_PIECES = 4;
/** Rotor speed at a given command goes at most with voltage, thrust with rotor speed squared. */
const MOST = 2;

/**
 * Reads the law from what all motors together were asked for in steady flight, which carries the same weight all the
 * time: log(demand) = constant + a x speed^2 - exponent x log(voltage), by least squares over the pieces.
 *
 * @param demands mean thrust share over all motors, one a piece
 * @returns null without voltages, or where they differ too little or go too closely with speed to tell
 */
export function voltageLaw(pieces: readonly SteadyPiece[], demands: readonly number[]): VoltageLaw | null {
  const volts = pieces.map(({ voltage }) => voltage);
  if (pieces.length < FEWEST_PIECES || !volts.every((v): v is number => v !== null && v > 0)) return null;
  if (!demands.every((demand) => demand > 0)) return null;
  if (Math.max(...volts) / Math.min(...volts) < 1 + LEAST_SPREAD) return null;
  const hasLegs = pieces.some(({ speed }) => speed > 0);
  const columns = [
    new Float64Array(pieces.length).fill(1),
    Float64Array.from(volts, (v) => -Math.log(v / volts[0]!)),
    ...(hasLegs ? [Float64Array.from(pieces, ({ speed }) => speed * speed)] : []),
  ];
  if (pieces.length < columns.length + 2) return null;
  const fit = leastSquaresOrNull(columns, Float64Array.from(demands, Math.log));
  if (fit === null) return null;
  const { coefficients, covariance, degreesOfFreedom } = fit;
  const standardError = Math.sqrt(covariance.data[columns.length + 1]!);
  if (!(studentTQuantile(0.975, degreesOfFreedom) * standardError <= LARGEST_ERROR)) return null;
  return { exponent: Math.min(MOST, Math.max(0, coefficients[1]!)), standardError, degreesOfFreedom };
}
