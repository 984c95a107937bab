import type { LoadChange, RefusedBaseline } from "../detect/index.ts";
import { percentWords } from "../words/index.ts";

/** Why a baseline flight was not compared with, for the list of what was not examined. */
export function refusalWords({ reason, load }: RefusedBaseline): string {
  switch (reason) {
    case "aircraft-differs":
      return "The two aircraft files do not agree on how many motors there are, where they sit or which way they turn, so this flight was judged alone.";
    case "no-steady-flight":
      return "The baseline has too little steady hover or level flight to average over, so this flight was judged alone.";
    case "no-common-condition":
      return "The two flights have no steady flight in common (hover, or a speed step of about the same speed), so this flight was judged alone.";
    case "load-differs":
      return `The motors' total thrust demand ${load === undefined ? "differs too much from the baseline's" : loadWords(load)}: too much for the same aircraft, so this flight was judged alone.`;
  }
}

function loadWords({ total, mass, voltage }: LoadChange): string {
  const battery = voltage === null ? "battery voltage not known in both" : "battery voltage allowed for";
  const masses =
    mass === null || mass === 0 ? "" : `; the masses in the aircraft files differ by ${percentWords(Math.abs(mass))}`;
  return `is ${percentWords(Math.abs(total))} ${total > 0 ? "above" : "below"} the baseline's (${battery}${masses})`;
}
