import { type RandomGenerator, randomGenerator } from "../../signal/index.ts";

/**
 * One of many independent random streams of a seed. Each source of noise has its own, so that a fault in one place
 * leaves all other noise of the flight as it was.
 *
 * @param stream number of the stream, from 0
 */
export function noiseStream(seed: number, stream: number): RandomGenerator {
  // Odd multipliers spread neighbours over the whole range, so that (1, 2) and (2, 1) share nothing.
  return randomGenerator((Math.imul(seed, 0x85ebca6b) ^ Math.imul(stream + 1, 0x9e3779b9)) >>> 0);
}
