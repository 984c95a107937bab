import type { IntegratorWindupEvidence } from "../../detect/index.ts";
import { capital, countWords, measureWords, numberWords, percentWords, secondsWords } from "../../words/index.ts";

import { ALERT_TABLE, highestLevel } from "../alert-levels.ts";
import { CAUTIONS } from "../cautions.ts";
import type { FindingKind } from "../kind.ts";

export const integratorWindupKind: FindingKind<IntegratorWindupEvidence> = {
  kind: "integrator-windup",
  guide: {
    title: "Integrator wound up",
    meaning:
      "The integral term of a loop adds up what is still missing. While a motor is at its limit, adding up changes nothing but the term itself: it grows, and when the motor comes free again the term pushes the aircraft past where it should be until it is given back.",
    method:
      "While a motor or the controller output is at a limit, or the integral term at its own, it is asked whether the term grew by a quarter of its range with an error to one side. The overshoot is how far the axis then ran past its set point, over the largest error before; the time to unwind runs from the error's change of side until nine tenths of the growth are given back. Where the term is not logged, the controller output (else the moment of the motor commands) is fitted by error, integral of the error and slope of the response over stretches without a limit; if that explains half of it or more, the integral term is what is left besides the other two parts, and the finding says rebuilt. Else only a long error to one side at a limit with an overshoot after it counts: outward. Of several axes that lose ground together so, those are told that lost at least half of what the worst one lost.",
    limits:
      "A steady integral term with a small error is a trim, not wind-up: see thrust-imbalance. Rebuilt terms carry the noise of the rates and suppose a loop of proportional, integral and derivative parts; outward signs may come from a gust that ended.",
    sources: [
      "Astrom and Hagglund, PID Controllers: Theory, Design and Tuning, 2nd ed., section 3.5",
      "Bayley and Hammersley 1946, J. R. Stat. Soc. Suppl. 8(2):184-197 (intervals of the fit)",
      "Thresholds: definitions of this project",
    ],
    cautions: [CAUTIONS.gainsAreNotAuthority, CAUTIONS.changingGains, CAUTIONS.flyingAfterFinding],
  },
  level({ evidence, overshootAtLimit }) {
    const seen = ALERT_TABLE["integrator-windup"].caution.evidence.some((one) => one === evidence);
    return highestLevel({ advisory: true, caution: seen, warning: seen && overshootAtLimit });
  },
  words(evidence) {
    const { axis, direction, measures, stretches, isAtOwnLimit, limit, explained, overshootAtLimit } = evidence;
    const count = stretches.length;
    const how =
      evidence.evidence === "logged"
        ? ""
        : evidence.evidence === "rebuilt"
          ? ` (the term is not logged; it was rebuilt from a fit that explains ${percentWords(explained ?? 0)} of what the axis asked)`
          : " (the term is not logged; only outward signs tell)";
    const own = isAtOwnLimit && limit !== null ? ` (its limit is ${numberWords(limit)})` : "";
    const size =
      evidence.evidence === "outward"
        ? `The axis fell ${measureWords("peak", measures.peak!)} behind at a limit`
        : `The ${axis} integrator was driven to ${direction === "positive" ? "+" : "−"}${measureWords("peak", measures.peak!)}${own}`;
    const unwind = measures.unwind === undefined ? "" : ` and took ${secondsWords(measures.unwind.value)} to unwind`;
    return {
      summary: `${size} while a limit kept it from having effect, for ${secondsWords(measures.duration!.value)} in ${countWords(count, "stretch", "stretches")}, the first at ${secondsWords(stretches[0]!.start)}${how}. Afterwards ${axis} ran past its set point by ${percentWords(measures.overshoot!.value)} of the error before${unwind}.`,
      meaning: overshootAtLimit
        ? `${capital(axis)} swung back so hard that a motor came to a limit again: that is how a wound-up integrator turns a short want of control into a large swing.`
        : "What was added up without effect had to be given back: the aircraft answers late and too far. The cause is the limit, not the integrator.",
      cautions: [CAUTIONS.gainsAreNotAuthority, CAUTIONS.flyingAfterFinding],
      next: [
        "Find out why the motor was at its limit: see the findings about motors and the room they left.",
        "Check weight, centre of gravity and speed first; they decide whether the limit is met.",
        "See whether the flight controller can hold its integrators while a motor is at a limit, and whether their limits fit this aircraft.",
        ...(evidence.evidence === "logged"
          ? []
          : ["Log the integral terms of the rate loops, so that the next flight shows them directly."]),
      ],
    };
  },
  top: ({ direction, evidence }) => ({ direction, evidence }),
};
