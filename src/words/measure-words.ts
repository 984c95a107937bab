import { displayUnit } from "./display-unit.ts";
import { numberWords, percentWords, withDecimals } from "./number-words.ts";
import { plainText } from "./plain-text.ts";

/** A measured number as a diagnosis states it: SI unit, and its interval where it has one. */
export interface MeasuredNumber {
  readonly value: number;
  readonly unit: string;
  readonly low?: number | undefined;
  readonly high?: number | undefined;
  readonly level?: number | undefined;
}

/** Measures without a unit that are parts of a whole and read best in percent. */
const SHARES = new Set([
  "share",
  "above",
  "below",
  "thrust-above",
  "mean",
  "excess",
  "demand-now",
  "demand-before",
  "spin-bias",
  "twist",
  "load",
  "mass-change",
  "residual",
  "least",
  "deficit",
  "loss",
  "overshoot",
  "at ceiling",
  "at floor",
]);

/** Lengths that are parts of an aircraft and read best in millimetres. */
const OFFSETS = /^(cg|speed-shift|wind-shift)-/;

/** Names of measures whose own name does not say enough. */
const NAMES: Readonly<Record<string, string>> = {
  above: "room above",
  below: "room below",
  "thrust-above": "thrust left above",
  mean: "mean command",
  "rows-cut": "rows cut off",
  flown: "time in the air so far",
  share: "share of air time",
  longest: "longest stretch",
  least: "least authority",
  rms: "usual error (rms)",
  p95: "error, 95 % stay below",
  bias: "lasting error",
  growth: "growth rate",
  energy: "work of the motors per cycle, over the swing's energy (above 0 feeds it, below 0 brakes it)",
  effectiveness: "angular acceleration per N·m of the motors, fitted",
  motorLag: "lag of the motors, fitted",
  motorDelay: "delay besides, fitted",
  sidePull: "sideways pull over that of the tilt",
  rotorLine: "rotor line that may be behind it",
  axisLag: "after the axis that led",
  "cg-forward": "centre of the load forward",
  "cg-right": "centre of the load right",
  "over-others": "times the middle of all motors",
  tone: "amplitude that follows the motor",
  "amplitude-2": "amplitude, twice per turn",
  "amplitude-3": "amplitude, three times per turn",
  "spin-bias": "counter-clockwise propellers over the mean",
  twist: "counter-clockwise propellers over the mean, the named motors' part taken off",
  "demand-now": "thrust asked for over the mean, this flight",
  "demand-before": "thrust asked for over the mean, baseline",
  load: "total thrust demand over the baseline's",
  "mass-change": "mass over the baseline's, by the aircraft files",
  excess: "more thrust asked for",
  unexplained: "turning that the motors do not account for (1: as much as all of it)",
  tilt: "tilt of one motor, the more probable of those below",
  "tilt-by-motor": "tilt, if it is this motor",
  residual: "sharing that makes neither lift nor moment",
  "speed-shift-forward": "load moved forward by speed",
  "speed-shift-right": "load moved right by speed",
  "wind-shift-forward": "load moved forward by wind, either way",
  "wind-shift-right": "load moved right by wind, either way",
  "speed-at-limit": "speed at the limit",
  "voltage-at-limit": "battery voltage at the limit",
  "phase-delay": "phase delay",
};

/** The name of a measure for a table. */
export function measureName(key: string): string {
  return NAMES[key] ?? plainText(key.replaceAll("-", " "), 40);
}

/** A measured number with its unit and, in words, its interval: `1.52 Hz (between 1.49 and 1.55 Hz)`. */
export function measureWords(key: string, estimate: MeasuredNumber): string {
  const { value, low, high } = estimate;
  const words = valueWords(key, estimate, value);
  const level = estimate.level === undefined ? "" : `, ${percentWords(estimate.level)} interval`;
  if (low !== undefined && high !== undefined) {
    // Ends that read as the value itself say nothing.
    if (low === high || [low, high].every((end) => valueWords(key, estimate, end) === words)) return words;
    return `${words} (between ${valueWords(key, estimate, low, false)} and ${valueWords(key, estimate, high)}${level})`;
  }
  if (low !== undefined) return `${words} (at least ${valueWords(key, estimate, low)}${level})`;
  if (high !== undefined) return `${words} (at most ${valueWords(key, estimate, high)}${level})`;
  return words;
}

function valueWords(key: string, estimate: MeasuredNumber, value: number, withUnit = true): string {
  if (estimate.unit === "1" && SHARES.has(key))
    return withUnit ? percentWords(value) : percentWords(value).replace(/ %$/, "");
  if (estimate.unit === "1" && Number.isInteger(value) && estimate.low === undefined) return String(value);
  const { label, factor } =
    estimate.unit === "m" && OFFSETS.test(key) ? { label: "mm", factor: 1000 } : displayUnit(estimate.unit);
  const unit = withUnit && label !== "" ? ` ${plainText(label, 12)}` : "";
  return `${roundedTo(estimate, value, factor)}${unit}`;
}

/** Rounded so that the last digit is the first one that the interval leaves in doubt; three digits without interval. */
function roundedTo({ value: centre, low, high }: MeasuredNumber, value: number, factor: number): string {
  const half = factor * Math.max((high ?? centre) - centre, centre - (low ?? centre));
  if (!(half > 0)) return numberWords(value * factor);
  return withDecimals(value * factor, Math.min(6, Math.max(0, -Math.floor(Math.log10(half)))));
}
