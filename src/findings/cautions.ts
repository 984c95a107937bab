/**
 * The standing cautions: the one place where they are worded. Findings and pages quote them by name, so that a
 * warning about propellers reads the same wherever it stands.
 */
export const CAUTIONS = {
  authority:
    "The aircraft's manual, local rules and the judgement of licensed people go before anything written here. This report measures; the decision to fly stays with the crew.",
  propellers:
    "Disconnect the battery before anyone works near the propellers, and keep them clear of people and tools whenever it is connected.",
  flyingAfterFinding:
    "Before the next flight find the cause and write down what was changed. Fly first in calm air, low, over open ground, away from people, with a way out ready.",
  changingGains:
    "Change one gain at a time, in small steps, and write down the old value first. Try each step low and away from people, with a way out ready: a switch back to settings that are known to fly.",
  gainsAreNotAuthority:
    "Other gains do not give a motor more thrust. Weight, balance, speed and wind decide how much room is left.",
  mechanicalFirst:
    "Look for the mechanical cause first. Trim or gains that cover up a mechanical fault hide it until it grows.",
  absence:
    "Nothing found means nothing found in the channels that were logged, by the methods named here. It does not mean that the aircraft is in order.",
} as const;

export type CautionName = keyof typeof CAUTIONS;

/** Cautions that close every report, whatever it found, in the order in which they are read. */
export const STANDING_CAUTIONS: readonly string[] = [
  CAUTIONS.authority,
  CAUTIONS.propellers,
  CAUTIONS.flyingAfterFinding,
  CAUTIONS.changingGains,
  CAUTIONS.absence,
];
