import type { Quantity, TableName, Verdict } from "../../compare/index.ts";
import { capital } from "../../words/index.ts";

type Named = Pick<Quantity, "key" | "axis" | "loop" | "motor">;

/** What a quantity is called in a table: `rate error, usual size (rms)`. */
export function quantityName({ key, loop, motor }: Named, motorName: (motor: number) => string): string {
  switch (key) {
    case "power":
      return "Electrical power";
    case "mean-command":
      return motor === undefined
        ? "Mean command of all motors (in place of power)"
        : `Mean command, ${motorName(motor)}`;
    case "rotor-speed":
      return "Mean rotor speed (in place of power)";
    case "error-rms":
      return `${loopName(loop)} error, usual size (rms)`;
    case "error-p95":
      return `${loopName(loop)} error, 95 % stay below`;
    case "swing":
      return "Size of its own swing";
    case "damping":
      return "Damping of its own swing";
    case "activity":
      return "How hard the motors are worked (rms about a second's mean)";
    case "headroom-above":
      return "Command range left above, least motor";
    case "headroom-below":
      return "Command range left below, least motor";
    case "authority":
      return "Room to turn, of what hover has";
    case "imbalance":
      return "Unevenness of the motors' load";
    default:
      return capital(key.replaceAll("-", " "));
  }
}

/** The same within a sentence, as its subject: `its angle error (rms)`. */
export function quantityPhrase({ key, loop }: { readonly key: string; readonly loop?: string | undefined }): string {
  switch (key) {
    case "error-rms":
      return `its usual ${loop === "attitude" ? "angle" : "rate"} error (rms)`;
    case "error-p95":
      return `the ${loop === "attitude" ? "angle" : "rate"} error that it stays below 95 % of the time`;
    case "swing":
      return "the size of its own swing";
    case "damping":
      return "the damping of its own swing";
    case "headroom-above":
      return "what the motor with least room has left above";
    case "headroom-below":
      return "what the motor with least room has left below";
    default:
      return key.replaceAll("-", " ");
  }
}

const loopName = (loop: Quantity["loop"]) => (loop === "attitude" ? "Angle" : "Rate");

/** Heading of a table. */
export const TABLE_TITLES: Readonly<Record<TableName, string>> = {
  power: "Power",
  roll: "Roll: steadiness",
  pitch: "Pitch: steadiness",
  yaw: "Yaw: steadiness",
  room: "Room left",
  motors: "Motors",
};

/** The word of a verdict. */
export function verdictWord(verdict: Verdict, difference: number | undefined): string {
  switch (verdict) {
    case "better":
    case "worse":
      return verdict;
    case "changed":
      return (difference ?? 0) > 0 ? "more" : "less";
    case "perhaps-better":
      return "perhaps better";
    case "perhaps-worse":
      return "perhaps worse";
    case "perhaps-changed":
      return (difference ?? 0) > 0 ? "perhaps more" : "perhaps less";
    case "no-difference":
      return "no difference that this data can show";
    case "not-enough-data":
      return "not enough data";
  }
}
