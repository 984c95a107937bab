import type { Estimate, MotorEstimate, ThrustImbalanceEvidence } from "../../detect/index.ts";
import { measureWords, numberWords } from "../../words/index.ts";
import { sized } from "./imbalance-sizes.ts";

/**
 * The lean of one motor that would make the yaw moment. Where motors would need unlike leans there is no one number, so
 * each is given with its motors.
 */
export function tiltWords({ perMotor, sharedPlaces }: ThrustImbalanceEvidence, tilt: Estimate): string[] {
  const each = perMotor["tilt-by-motor"] ?? [];
  const motors = new Map<string, number[]>();
  for (const { motor, value } of each) {
    const words = `${numberWords(Math.abs(degrees(value)), 2)} deg`;
    motors.set(words, [...(motors.get(words) ?? []), motor]);
  }
  const lean = "One motor that leans sideways, along the circle on which the motors stand,";
  const arms = sharedPlaces.map((place) => listWords(place, "and")).join("; ");
  return [
    motors.size < 2
      ? `${lean} by ${measureWords("tilt", sized(tilt))} would make as much yaw moment; which one, the balance does not tell.`
      : `${lean} would make as much yaw moment. Which one, the balance does not tell, and they would need unlike leans: ${[...motors].map(([words, of]) => `${words} if it is motor ${listWords(of, "or")}`).join(", ")}${giveOrTake(each)}.`,
    ...(arms === ""
      ? []
      : [`Of motors on one arm (${arms}) nothing in steady flight tells which one leans: look at each of them.`]),
  ];
}

const degrees = (angle: number) => (angle * 180) / Math.PI;

/** The widest half of the intervals. */
function giveOrTake(each: readonly MotorEstimate[]): string {
  const half = Math.max(...each.map(({ low, high }) => (high! - low!) / 2));
  return Number.isFinite(half) ? ` (give or take up to ${numberWords(Math.max(0.1, degrees(half)), 1)} deg)` : "";
}

/** `1, 2 or 3`. */
const listWords = (numbers: readonly number[], word: "and" | "or") =>
  numbers.length < 2 ? numbers.join() : `${numbers.slice(0, -1).join(", ")} ${word} ${numbers.at(-1)}`;
