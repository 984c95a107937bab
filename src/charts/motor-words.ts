import type { Flight } from "../flight/flight.ts";
import { plainText } from "./plain-text.ts";

/** `motor 3 (rear right)`, or `motor 3` where the crew gave no word for it. */
export function motorWords(flight: Flight, motor: number): string {
  const label = flight.aircraft?.motors[motor - 1]?.label;
  return label === undefined || label === "" ? `motor ${motor}` : `motor ${motor} (${plainText(label, 24)})`;
}
