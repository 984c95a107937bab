import type { FlownCondition, Quantity, RefusedComparison } from "../../compare/index.ts";
import { numberWords } from "../../words/index.ts";
import { quantityName } from "./quantity-words.ts";

/** Why two flights do not compare, and what to do about it: the two halves of an error's one line. */
export function comparisonRefusal(refused: RefusedComparison): { problem: string; remedy: string } {
  switch (refused.reason) {
    case "other-aircraft": {
      const { key, before, after } = refused.difference;
      return {
        problem: `the aircraft files describe different aircraft: ${key} is ${before} before and ${after} after`,
        remedy: "compare flights of one aircraft, or give one file that holds for both",
      };
    }
    case "no-common-condition":
      return {
        problem: `the flights have no speed in common: ${flownWords(refused.before)} before, ${flownWords(refused.after)} after`,
        remedy: "compare flights that both hover, or fly legs of some seconds at about the same speeds",
      };
    case "no-common-quantity":
      return {
        problem: `no channel that can be compared is in both logs${aloneWords(refused.onlyIn)}`,
        remedy: "log or map the same channels in both flights",
      };
  }
}

function flownWords(conditions: readonly FlownCondition[]): string {
  if (conditions.length === 0) return "no steady flight";
  return conditions
    .map(({ kind, speed }) =>
      kind === "cruise" ? `${speed === null ? "a speed that nobody logged" : `${numberWords(speed, 2)} m/s`}` : kind,
    )
    .join(", ");
}

function aloneWords(onlyIn: readonly { flight: string; quantity: Quantity }[]): string {
  if (onlyIn.length === 0) return "";
  const words = (flight: string) => [
    ...new Set(
      onlyIn
        .filter((one) => one.flight === flight)
        .map(({ quantity }) => quantityName(quantity, (motor) => `motor ${motor}`).toLowerCase()),
    ),
  ];
  return (["before", "after"] as const)
    .map((flight) => ({ flight, names: words(flight) }))
    .filter(({ names }) => names.length > 0)
    .map(({ flight, names }) => `; only ${flight}: ${names.slice(0, 4).join(", ")}`)
    .join("");
}
