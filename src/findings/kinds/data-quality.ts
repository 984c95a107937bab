import type { DataQualityEvidence } from "../../detect/index.ts";
import {
  capital,
  countWords,
  measureWords,
  numberWords,
  percentWords,
  plainText,
  secondsWords,
} from "../../words/index.ts";

import { ALERT_TABLE, highestLevel } from "../alert-levels.ts";
import { CAUTIONS } from "../cautions.ts";
import type { FindingKind } from "../kind.ts";

export const dataQualityKind: FindingKind<DataQualityEvidence> = {
  kind: "data-quality",
  guide: {
    title: "State of the log",
    meaning:
      "Something in the log itself that limits what can be said: pauses, stamps that repeat or run backwards, a channel that stands still, a log that freezes at its end or ends in the air.",
    method:
      "A pause is a spacing of samples well above the usual one; nothing is computed across it as if it were data. Rows whose time stamp repeats or runs backwards are dropped and counted. A measured motion that does not change while others do is stuck. Where no motion changes any more to the end of the log, the log is frozen from there on and the rest is left out. A log ends in the air where air time, told by motors, collective or height, lasts to its last row. A last row that no line break ends and that cannot be read was cut off, and is left out. A rate set point of roll or pitch that moves by less than a thousandth of the range of the rate is taken for not logged.",
    limits:
      "A slow quantity, a set point at rest or an aircraft standing on the ground is not told from a stuck channel, so only measured motions are judged, and rate set points of roll and pitch that never move.",
    sources: ["Definitions of this project; see the method"],
    cautions: [CAUTIONS.absence],
  },
  level(evidence) {
    const { problem, inAir, measures } = evidence;
    const { advisory } = ALERT_TABLE["data-quality"];
    switch (problem) {
      case "frozen-end":
        return highestLevel({ advisory: true, caution: inAir });
      // Advisory, though a crash may stand behind it: most logs that end so are cut-outs made on purpose or were stopped
      // from the ground. Of 174 published flights
      // examined 173 end in the air and one freezes there; a caution that every log carries is read on none.
      case "ends-in-air":
        return "advisory";
      case "stretch-ends-in-air":
      case "end-untold":
        return "note";
      // No one stops a log in the middle of a row: power or the logger was lost, or the copy is not whole.
      case "cut-row":
        return highestLevel({ caution: inAir && "flown" in measures, advisory: inAir });
      case "row-gaps":
      case "channel-gaps":
        return highestLevel({ advisory: inAir && measures.longest!.value >= advisory.gap });
      case "stuck":
        return highestLevel({ advisory: inAir });
      case "stamps": {
        const lost = measures.repeated!.value + measures.backwards!.value;
        const samples = measures.rate!.value * Math.max(1, evidence.end - evidence.start);
        return highestLevel({ advisory: measures.backwards!.value > 0 || lost / samples >= advisory.lostShare });
      }
      default:
        return "advisory";
    }
  },
  words(evidence) {
    return { ...WORDS[evidence.problem](evidence), cautions: [CAUTIONS.absence] };
  },
};

type Words = { summary: string; meaning: string; next: string[] };

const nameOf = ({ channel, column }: DataQualityEvidence) =>
  column === undefined ? channel : `${channel} (column "${plainText(column, 60)}")`;

/** m; a height that near to that of the take-off point may be a landing or an impact */
const NEAR_GROUND = 0.1;

/** "in the air, 16.6 m up with motors running (58 % of their range on average)" */
function endWords({ height, mean }: DataQualityEvidence["measures"]): string {
  const motors =
    mean === undefined ? "" : ` with motors running (${percentWords(mean.value)} of their range on average)`;
  if (height === undefined) return `in the air${motors}`;
  if (height.value > NEAR_GROUND) return `in the air, ${numberWords(height.value)} m up${motors}`;
  return `before the landing was over, near the height of the take-off point${motors}`;
}

const WORDS: Record<DataQualityEvidence["problem"], (evidence: DataQualityEvidence) => Words> = {
  "frozen-end": ({ start, inAir, measures }) => ({
    summary: `From ${secondsWords(start)} on no measured value changes any more, although the log runs on for ${secondsWords(measures.stuck!.value)}. That part was left out.`,
    meaning: inAir
      ? "The log stopped telling while the aircraft was in the air: power, the link or the logger was lost. What happened after that is not known from this log."
      : "The logger went on after the aircraft's data had ended.",
    next: [
      "Find out from the crew and the wreck or the aircraft what ended the data: power, connector, link, logger.",
      "Look at the seconds before: what happened there may be the reason.",
    ],
  }),
  "ends-in-air": ({ measures }) => ({
    summary: `The log ends ${endWords(measures)}: what came after is not known (a loss of power, a crash, a full memory, or a log that was stopped or cut).`,
    meaning: "Nothing here says how the flight ended, and what ended the log may be what went wrong.",
    next: [
      "Find out which before the next flight: ask the crew how the flight ended, then look at battery, power connectors and the logger's memory.",
      "If the flight went on, examine the rest of its log too.",
    ],
  }),
  "stretch-ends-in-air": ({ measures }) => ({
    summary: `The stretch examined ends ${endWords(measures)}; the log goes on.`,
    meaning: "It was cut there on request. What came after was not examined.",
    next: [],
  }),
  "end-untold": () => ({
    summary: "Nothing in this log tells whether the aircraft was still in the air when the log ended.",
    meaning: "A log that a loss of power or a crash ended would look the same here.",
    next: ["Log motor commands or the height above the take-off point."],
  }),
  "cut-row": ({ measures, inAir }) => ({
    summary: `The log ends in the middle of a row${"flown" in measures ? `, ${endWords(measures)}` : ""}: it was cut off there. That row was left out.`,
    meaning: inAir
      ? "Power or the logger was lost, or the copy is not whole. What came after is not known, and the aircraft may have been in the air."
      : "Power or the logger was lost, or the copy is not whole. What came after is not known.",
    next: [
      "Compare the file with the one on the logger; if that is longer, examine it instead.",
      ...(inAir
        ? ["If it is not, find out what ended the log before the next flight: battery, power connectors, the logger."]
        : []),
    ],
  }),
  "row-gaps": ({ measures, inAir }) => ({
    summary: `The log pauses ${countWords(measures.gaps!.value, "time")}, for ${secondsWords(measures.longest!.value)} at the longest; rows come at ${numberWords(measures.rate!.value)} Hz otherwise.`,
    meaning: inAir
      ? "What happened in the pauses in the air is not known. Nothing was computed across them."
      : "The pauses lie outside the air time and cost nothing.",
    next: inAir
      ? ["Look at the logger's storage or link; log fewer channels or at a lower rate if it cannot keep up."]
      : [],
  }),
  "channel-gaps": (evidence) => ({
    summary: `${capital(nameOf(evidence))} pauses ${countWords(evidence.measures.gaps!.value, "time")}, for ${secondsWords(evidence.measures.longest!.value)} at the longest.`,
    meaning: "Other channels go on, so this sensor or its link dropped out. Nothing was computed across the pauses.",
    next: ["Check that sensor's connector, cable and power."],
  }),
  stuck: (evidence) => ({
    summary: `${capital(nameOf(evidence))} stands still for ${secondsWords(evidence.measures.stuck!.value)} in all, from ${secondsWords(evidence.start)} on, while other motions change.`,
    meaning: evidence.inAir
      ? "A measured motion that stands still in the air is not a measurement; numbers that rest on it there are doubtful."
      : "It stands still outside the air time only.",
    next: evidence.inAir ? ["Check that sensor, its connector and its driver before the next flight."] : [],
  }),
  stamps: ({ measures, start }) => {
    const { repeated, backwards } = measures;
    const parts = [
      repeated!.value > 0 ? `${countWords(repeated!.value, "row repeats", "rows repeat")} a time stamp` : "",
      backwards!.value > 0
        ? `${countWords(backwards!.value, "row runs", "rows run")} backwards, the first at ${secondsWords(start)}`
        : "",
    ].filter((part) => part !== "");
    return {
      summary: `${parts.join("; ")}. These rows were dropped.`,
      meaning: "Time stamps in doubt put delays and frequencies in doubt where there are many of them.",
      next:
        backwards!.value > 0 ? ["Find out whether the clock was set during the flight, or two logs were joined."] : [],
    };
  },
  "empty-column": (evidence) => ({
    summary: `${capital(nameOf(evidence))} holds no value at all.`,
    meaning: "Whatever needs this channel was not examined.",
    next: ["Check whether the sensor was fitted and its logging switched on."],
  }),
  "still-set-point": (evidence) => ({
    summary: `The rate set point ${nameOf(evidence)} moves by ${measureWords("set-point-range", evidence.measures["set-point-range"]!)} in the whole flight, although the axis turned. It was taken for not logged.`,
    meaning:
      "No pilot and no control loop flies with a rate set point at rest, so this column does not hold what was asked. How well the axis followed its rate set point, and whether a swing was the rate loop's, was not judged by it.",
    next: ["Check which column holds the rate that the controller asked for, and whether its logging was switched on."],
  }),
  "slow-channel": (evidence) => ({
    summary: `${capital(nameOf(evidence))} is logged at ${numberWords(evidence.measures.rate!.value)} Hz only.`,
    meaning:
      "Faster motions than half that rate cannot be seen, or show as slow ones that are not there. The rate loop cannot be judged from it.",
    next: ["Log body rates at 100 Hz or more."],
  }),
};
