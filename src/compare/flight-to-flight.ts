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
  "mean-command": 0.004,
  "rotor-speed": 0.003,
  "error-rms": 0.05,
  "error-p95": 0.05,
  swing: 0.05,
  damping: 0.01,
  activity: 0.03,
  "headroom-above": 0.005,
  "headroom-below": 0.005,
  authority: 0.01,
  imbalance: 0.003,
};

/** Standard deviation from flight to flight; see the table. */
export function flightToFlight({ key }: Quantity): number {
  return FLIGHT_TO_FLIGHT[key] ?? 0;
}
