import type { RefusedBaseline } from "../detect/index.ts";
import { percentWords } from "../words/index.ts";

/** Why a baseline flight was not compared with, for the list of what was not examined. */
export function refusalWords({ reason, load }: RefusedBaseline): string {
  switch (reason) {
    case "no-steady-flight":
      return "The baseline has too little steady hover or level flight to average over, so this flight was judged alone.";
    case "no-common-condition":
      return "The two flights have no steady flight in common (hover, or a speed step of about the same speed), so this flight was judged alone.";
    case "load-differs":
      return `The motors' total thrust demand differs by ${percentWords(Math.abs(load ?? 0))} from the baseline's, battery voltage allowed for: too much for the same aircraft, so this flight was judged alone.`;
  }
}
