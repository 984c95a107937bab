import { isSamePlace } from "../../aircraft/index.ts";
import type { Layout } from "./load-shares.ts";

/** Numbers of the motors that sit at one place, above each other; a place of one motor is left out. */
export function sharedPlaces({ x, y, motors }: Pick<Layout, "x" | "y" | "motors">): number[][] {
  const numbers = Array.from({ length: motors }, (_, i) => i + 1);
  const placeOf = (motor: number) => ({ x: x[motor - 1]!, y: y[motor - 1]! });
  const together = numbers.map((motor) => numbers.filter((other) => isSamePlace(placeOf(motor), placeOf(other))));
  return together.filter((place, i) => place.length > 1 && place[0] === i + 1);
}
