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
  "mean-command": 0.0025,
  "rotor-speed": 0.003,
  "error-rms": 0.04,
  "error-p95": 0.04,
  swing: 0.04,
  damping: 0.005,
  activity: 0.03,
  "headroom-above": 0.002,
  "headroom-below": 0.001,
  authority: 0.003,
  imbalance: 0.002,
};

/** The same in hover, where it is larger: one hover is one look at that day's air, and its wind is not taken out. */
const IN_HOVER: Readonly<Record<string, number>> = {
  power: 0.02,
  "rotor-speed": 0.007,
  activity: 0.15,
  "error-rms": 0.1,
  "error-p95": 0.1,
  swing: 0.1,
};

/** Standard deviation from flight to flight; see the tables. */
export function flightToFlight({ key }: Quantity, isHover = false): number {
  return (isHover ? IN_HOVER[key] : undefined) ?? FLIGHT_TO_FLIGHT[key] ?? 0;
}
