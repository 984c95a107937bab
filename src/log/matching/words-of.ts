import { meaningOfWord, UNIT_SPELLINGS } from "./vocabulary.ts";

/** A column's name taken apart. */
export interface NameParts {
  /** lower-case words and numbers in order, without the unit */
  readonly words: readonly string[];
  /** units that the end of the name may stand for; empty where it states none */
  readonly units: readonly string[];
}

const LONGEST_NAME = 200;

/**
 * Splits a name at anything that is no letter or digit, between `rollRate` and `motor1`, and into known words where
 * it runs them together (`airspeed`). A unit is looked for in brackets at the end, then among the last words.
 */
export function wordsOf(name: string): NameParts {
  if (name.length > LONGEST_NAME) return { words: [], units: [] };
  const bracketed = /^(.*?)\s*[[({]([^[\](){}]*)[\])}]\s*$/u.exec(name);
  const inBrackets = bracketed === null ? [] : unitsSpelled(bracketed[2]!);
  if (bracketed !== null && inBrackets.length > 0) return { words: split(bracketed[1]!), units: inBrackets };
  const words = split(name);
  for (const count of [3, 2, 1]) {
    if (words.length <= count) continue;
    const ending = words.slice(-count);
    const units = unitsSpelled(ending.join(""));
    const isInitial = count === 1 && ending[0]!.length === 1 && meaningOfWord(ending[0]!) !== null && words.length < 2;
    if (units.length > 0 && !isInitial) return { words: words.slice(0, -count), units };
  }
  return { words, units: [] };
}

const unitsSpelled = (text: string) => UNIT_SPELLINGS.get(text.toLowerCase().replace(/[\s/*·^_.]+|per/g, "")) ?? [];

function split(name: string): string[] {
  return name
    .replace(/(\p{Ll})(\p{Lu})/gu, "$1 $2")
    .replace(/(\p{L})(\p{N})/gu, "$1 $2")
    .replace(/(\p{N})(\p{L})/gu, "$1 $2")
    .replace(/set[\s_.-]*point/giu, " setpoint ")
    .toLowerCase()
    .split(/[^\p{L}\p{N}%°]+/u)
    .filter((word) => word !== "")
    .flatMap(splitCompound);
}

/** `airspeed` into `air speed`; only where both halves are known words of three letters or more. */
function splitCompound(word: string): string[] {
  if (meaningOfWord(word) !== null || UNIT_SPELLINGS.has(word)) return [word];
  for (let at = 3; at <= word.length - 3; at++) {
    const halves = [word.slice(0, at), word.slice(at)];
    if (halves.every((half) => meaningOfWord(half) !== null)) return halves;
  }
  return [word];
}
