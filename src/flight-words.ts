import type { FindingContext } from "./findings/index.ts";
import type { Flight } from "./flight/index.ts";
import { numberWords, plainText } from "./words/index.ts";

/** Names the motors of a flight: `motor 3 (rear right)`, or `motor 3` without an aircraft file. */
export function motorNames(flight: Flight): FindingContext["motorName"] {
  return (motor) => {
    const label = plainText(flight.aircraft?.motors[motor - 1]?.label ?? "", 40);
    return label === "" ? `motor ${motor}` : `motor ${motor} (${label})`;
  };
}

/** Names a phase: `cruise at 9.8 m/s (speed step 3, leg 2)`, `climb`. */
export const phaseName: FindingContext["phaseName"] = ({ kind, speed, step, leg }) => {
  if (kind !== "cruise") return kind === "turn" ? "a turn" : kind;
  const pace = speed === null ? "" : ` at ${numberWords(speed, 2)} m/s`;
  const place = [step === null ? "" : `speed step ${step}`, leg === null ? "" : `leg ${leg}`].filter(Boolean);
  return `cruise${pace}${place.length > 0 ? ` (${place.join(", ")})` : ""}`;
};
