import type { UpsetEvidence } from "../../detect/index.ts";
import { capital, measureWords, secondsWords } from "../../words/index.ts";
import { ALERT_TABLE, highestLevel } from "../alert-levels.ts";
import { CAUTIONS } from "../cautions.ts";
import type { FindingKind } from "../kind.ts";

export const upsetKind: FindingKind<UpsetEvidence> = {
  kind: "upset",
  guide: {
    title: "Upset: a tumble, kick or departure",
    meaning:
      "A tumble, kick or departure: the aircraft turned far and fast although no set point could have made it turn like that.",
    method:
      "Turning of an axis above 1.5 rad/s and above four times the rate that the flight stays below for nine tenths of its time, and above twice what the rate set point or the slope of the attitude set point asked for within the last 0.6 s. A jump of the attitude set point of more than 20 deg between two samples, three times any change of one sample elsewhere in the flight or more, is no motion that an aircraft can be asked for; it is named as what came just before. What the set point does in the 0.6 s after it excuses no turning, and the 2 s after it do not count for what the flight usually shows. The upset ends when rate and attitude error have been calm for half a second.",
    limits:
      "Gentle departures stay below the rate. The bump of a landing is left out unless the aircraft turns over. Without set points every fast turn counts.",
    sources: [
      "Alert levels: 14 CFR 25.1322 read for the ground; thresholds: the project's alert table",
      "Definitions of this project; see the method",
    ],
    cautions: [CAUTIONS.mechanicalFirst, CAUTIONS.flyingAfterFinding],
  },
  level({ measures, recovery }) {
    const { angle, rate, recovery: longest } = ALERT_TABLE.upset.warning;
    return highestLevel({
      caution: true,
      warning:
        measures.angle!.value >= angle || measures.rate!.value >= rate || recovery === null || recovery >= longest,
    });
  },
  words({ axis, start, measures, recovery, jumpAt, alsoOn }) {
    const also = alsoOn.length === 0 ? "" : ` ${capital(alsoOn.join(" and "))} was upset at the same time.`;
    const end =
      recovery === null
        ? "It was not recovered before the data ends."
        : `It was recovered after ${secondsWords(recovery)}.`;
    const cause =
      jumpAt === null
        ? "No set point asked for it."
        : `The attitude set point had jumped by ${measureWords("jump", measures.jump!)} from one sample to the next at ${secondsWords(jumpAt)}, which no aircraft can follow.`;
    return {
      summary: `${capital(axis)} was upset at ${secondsWords(start)}: it turned at up to ${measureWords("rate", measures.rate!)} and reached ${measureWords("angle", measures.angle!)}. ${end} ${cause}${also}`,
      meaning:
        recovery === null
          ? "Control was lost. Until the cause is known the aircraft is not to be trusted in the air."
          : "Something turned the aircraft harder than its controller could prevent; next time there may be less height to recover in.",
      cautions: [CAUTIONS.mechanicalFirst, CAUTIONS.flyingAfterFinding],
      next: [
        ...(jumpAt === null
          ? []
          : [
              "Find out what made the set point jump: a mode change, a restart, a position estimate that leapt, a test input.",
            ]),
        "Look at the motor commands at that moment: one at its ceiling while its opposite goes to the floor points at a motor or propeller that gave way.",
        "With the battery disconnected, check propellers, motors and their wiring, and the battery's connector.",
        "Check what could have struck or pulled the aircraft: a tether, a branch, a payload that shifted.",
      ],
    };
  },
};
