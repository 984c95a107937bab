import type { Estimate, ThrustImbalanceEvidence } from "../../detect/index.ts";
import { percentWords } from "../../words/index.ts";

/** A smaller change of all motors together says nothing: air density and the state of the pack do as much. */
const LOAD_WORTH_A_SENTENCE = 0.05;

/** What all motors together were asked for beside the baseline, and what the masses explain of it. */
export function loadWords({ measures }: ThrustImbalanceEvidence): string[] {
  const { load, "mass-change": mass } = measures;
  if (load === undefined) return [];
  const left = (1 + load.value) / (1 + (mass?.value ?? 0)) - 1;
  const isMuch = Math.abs(left) >= LOAD_WORTH_A_SENTENCE;
  const cause = left > 0 ? "more to carry, thinner air or propellers that pull less" : "less to carry or denser air";
  if (mass === undefined) {
    return isMuch
      ? [`All motors together are asked for ${changeWords(load)} than in the baseline flight: ${cause}.`]
      : [];
  }
  const rest = isMuch
    ? `beyond the masses there is ${cause}`
    : "what the masses leave unexplained is no more than air density and the state of the battery do";
  return [
    `By the masses in the aircraft files this flight needs ${changeWords(mass)} thrust than the baseline; all motors together are asked for ${changeWords(load)}: ${rest}.`,
  ];
}

/** `3.6 % more`. */
const changeWords = ({ value }: Pick<Estimate, "value">) =>
  `${percentWords(Math.abs(value))} ${value < 0 ? "less" : "more"}`;
