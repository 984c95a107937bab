import type { Quantity } from "./quantity.ts";

/**
 * How far a quantity moves from one flight to the next of an unchanged aircraft, beyond what its own legs show: air
 * density, battery, the strength of that day's gusts. One standard deviation of one flight; two flights cannot show it,
 * so it is set here, from pairs of simulated flights of one aircraft in different gusts (see test/studies) and from
 * repeated real flights of one small quadrotor. In the logarithm of the quantity, or in its unit where differences are
 * compared.
 */
const FLIGHT_TO_FLIGHT: Readonly<Record<string, number>> = {
  power: 0.005,
  "mean-command": 0.0015,
  "rotor-speed": 0.003,
  "error-rms": 0.04,
  "error-p95": 0.04,
  swing: 0.04,
  damping: 0.005,
  activity: 0.02,
  "headroom-above": 0.001,
  "headroom-below": 0.0005,
  authority: 0.009,
  imbalance: 0.0025,
};

/** The same in hover, where it is larger: one hover is one look at that day's air. */
const IN_HOVER: Readonly<Record<string, number>> = {
  power: 0.028,
  activity: 0.22,
  "error-rms": 0.15,
  "error-p95": 0.15,
  swing: 0.15,
};

/**
 * What wind does to hover, per m^2/s^2 by which the squares of the two winds differ: rotors need less power in a flow
 * across them, by how much depends on their size, and hover alone does not show it (0.13 % less for
 * each on the simulated quadrotor of 14 kg).
 */
const WIND_IN_HOVER: Readonly<Record<string, number>> = {
  power: 0.0012,
  "rotor-speed": 0.0004,
  "mean-command": 0.0003,
};
/** m^2/s^2, where the winds are not known: 4 m/s against none */
const UNKNOWN_WIND = 16;

/**
 * Standard deviation of one flight; see the tables.
 * @param hover in hover: by how much the squares of the two winds differ, m^2/s^2, null where they are not known
 */
export function flightToFlight({ key }: Quantity, hover?: { readonly windGap: number | null }): number {
  const usual = FLIGHT_TO_FLIGHT[key] ?? 0;
  if (hover === undefined) return usual;
  return Math.hypot(IN_HOVER[key] ?? usual, (WIND_IN_HOVER[key] ?? 0) * (hover.windGap ?? UNKNOWN_WIND));
}
