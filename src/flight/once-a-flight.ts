import type { Flight } from "./flight.ts";

/** Remembers what was computed of a flight, for as long as the flight is in use: detectors and charts share it. */
export function onceAFlight<Result>(compute: (flight: Flight) => Result): (flight: Flight) => Result {
  const known = new WeakMap<Flight, { readonly result: Result }>();
  return (flight) => {
    const found = known.get(flight) ?? { result: compute(flight) };
    known.set(flight, found);
    return found.result;
  };
}
