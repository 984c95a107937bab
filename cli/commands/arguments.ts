import { InvalidArgumentError } from "commander";
import { ALERT_LEVELS, type AlertLevel } from "../../src/index.ts";

/** A time on the log's clock. */
export function seconds(text: string): number {
  const value = Number(text);
  if (text.trim() === "" || !Number.isFinite(value) || value < 0) {
    throw new InvalidArgumentError(`"${text}" is not a number of seconds from 0 on.`);
  }
  return value;
}

/** A speed above zero. */
export function metresPerSecond(text: string): number {
  const value = Number(text);
  if (text.trim() === "" || !Number.isFinite(value) || value <= 0) {
    throw new InvalidArgumentError(`"${text}" is not a speed above 0 m/s.`);
  }
  return value;
}

export function wholeNumber(text: string): number {
  const value = Number(text);
  if (text.trim() === "" || !Number.isSafeInteger(value) || value < 0) {
    throw new InvalidArgumentError(`"${text}" is not a whole number from 0 on.`);
  }
  return value;
}

/** How many false oscillations an hour of flight are accepted: within what healthy flights were measured for. */
export function perHour(text: string): number {
  const value = Number(text);
  if (text.trim() === "" || !(value >= 0.001 && value <= 100)) {
    throw new InvalidArgumentError(`"${text}" is not a number an hour from 0.001 to 100.`);
  }
  return value;
}

export function alertLevel(text: string): AlertLevel {
  if ((ALERT_LEVELS as readonly string[]).includes(text)) return text as AlertLevel;
  throw new InvalidArgumentError(`"${text}" is none of ${ALERT_LEVELS.join(", ")}.`);
}

export const FORMATS = ["html", "json", "text", "svg", "png", "vl", "ticket"] as const;
export type Format = (typeof FORMATS)[number];

export function formatList(text: string): Format[] {
  const words = text
    .split(/[\s,]+/)
    .map((word) => word.trim())
    .filter((word) => word !== "");
  for (const word of words) {
    if (!(FORMATS as readonly string[]).includes(word)) {
      throw new InvalidArgumentError(`"${word}" is none of ${FORMATS.join(", ")}.`);
    }
  }
  if (words.length === 0) throw new InvalidArgumentError(`give at least one of ${FORMATS.join(", ")}.`);
  return [...new Set(words)] as Format[];
}
