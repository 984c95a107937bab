import type { Flight } from "../flight/index.ts";
import { motionMeters } from "./motion-meters.ts";
import { motorMeters } from "./motor-meters.ts";
import { powerMeters } from "./power-meters.ts";
import type { Meter } from "./quantity.ts";
import { trackingMeters } from "./tracking-meters.ts";

/**
 * Every quantity that a flight's channels allow to be measured.
 * @param modes Hz, frequency of each axis' own oscillation, the same for both flights
 */
export function metersOf(flight: Flight, modes: ReadonlyMap<string, number>): Meter[] {
  return [...powerMeters(flight), ...trackingMeters(flight), ...motionMeters(flight, modes), ...motorMeters(flight)];
}
