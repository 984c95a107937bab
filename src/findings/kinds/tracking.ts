import type { TrackingEvidence } from "../../detect/index.ts";
import { capital, measureWords } from "../../words/index.ts";

import { ALERT_TABLE, highestLevel } from "../alert-levels.ts";
import { CAUTIONS } from "../cautions.ts";
import type { FindingContext, FindingKind } from "../kind.ts";

export const trackingKind: FindingKind<TrackingEvidence> = {
  kind: "tracking",
  guide: {
    title: "How well an axis follows",
    meaning:
      "How far the measured rate or attitude was from what the controller asked for: usually, at its worst, and lastingly to one side; and how long the response took.",
    method:
      "Error is measured less set point at each measured sample in the air, the set point taken linearly between its own samples and never across a gap. The bias is its mean. The intervals of rms and bias take blocks of two seconds or more as replicates (Student's t); with fewer than four blocks there is none. The delay is the lag of the highest cross-correlation, its interval the wider of the fit's own and of parts of the record taken as replicates; it is left out where set point and response are not alike enough to place it.",
    limits:
      "A set point that hardly moves tells little about following. The error holds gusts, noise and the set point's own noise alike. Yaw attitude is compared on the circle.",
    sources: [
      "Knapp and Carter 1976, IEEE Trans. ASSP 24(4):320-327 (delay)",
      "Student 1908, Biometrika 6(1):1-25 (intervals)",
      "Thresholds: those of the oscillation table",
    ],
    cautions: [CAUTIONS.changingGains],
  },
  level({ loop, measures }) {
    const { advisory, caution } = ALERT_TABLE.tracking;
    const p95 = measures.p95!.value;
    if (loop === "rate") return highestLevel({ advisory: p95 >= advisory.rateP95, caution: p95 >= caution.rateP95 });
    return highestLevel({
      advisory: p95 >= advisory.angleP95 || Math.abs(measures.bias!.value) >= advisory.angleBias,
      caution: p95 >= caution.angleP95,
    });
  },
  words({ axis, loop, measures }, context, level) {
    const subject = `${axis} ${loop}`;
    const delay =
      measures.delay === undefined
        ? ""
        : ` The response came ${measureWords("delay", measures.delay)} after the set point.`;
    return {
      summary: `${capital(subject)} strayed from its set point by ${measureWords("rms", measures.rms!)} rms; 95 % of the time by less than ${measureWords("p95", measures.p95!)}. The lasting error was ${measureWords("bias", measures.bias!)}.${delay}`,
      meaning:
        level === "note"
          ? noteWords(axis, context)
          : "The aircraft did not do what was asked of it on this axis: it was pushed, it oscillated, or the loop was too weak or too slow.",
      cautions: level === "note" ? [] : [CAUTIONS.mechanicalFirst, CAUTIONS.changingGains],
      next:
        level === "note"
          ? []
          : [
              "Look at the chart: a wave of steady period is an oscillation, a lasting offset is a load or a limit, single peaks are gusts or manoeuvres.",
              "Check whether a motor was at a limit at the same time.",
              "Look for looseness: arms, motor mounts, payload, battery.",
            ],
    };
  },
};

/** A flight's figures are good over all where an axis swung or was upset for a part of it. */
function noteWords(axis: TrackingEvidence["axis"], { evidence }: FindingContext): string {
  const troubled = evidence.some((one) => (one.kind === "oscillation" || one.kind === "upset") && one.axis === axis);
  return troubled
    ? `Over the whole flight the axis followed closely; for a part of it it did not: see the other findings on ${axis}.`
    : "The axis followed closely enough that nothing needs doing.";
}
