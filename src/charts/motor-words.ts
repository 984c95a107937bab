import type { Flight } from "../flight/flight.ts";
import { plainText } from "../words/index.ts";

/** `motor 3 (rear right)`, or `motor 3` where the crew gave no word for it. */
export function motorWords(flight: Flight, motor: number): string {
  const label = labelOf(flight, motor);
  return label === "" ? `motor ${motor}` : `motor ${motor} (${label})`;
}

/** `3 rear right`: the name of a motor's lane, where the axis already says that lanes are motors. */
export function laneName(flight: Flight, motor: number): string {
  return `${motor} ${labelOf(flight, motor)}`.trim();
}

function labelOf(flight: Flight, motor: number): string {
  return plainText(flight.aircraft?.motors[motor - 1]?.label ?? "", 24);
}
