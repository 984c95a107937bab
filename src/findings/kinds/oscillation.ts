import type { OscillationEvidence } from "../../detect/index.ts";
import { ALERT_TABLE, highestLevel } from "../alert-levels.ts";
import { CAUTIONS } from "../cautions.ts";
import type { AlertLevel } from "../finding.ts";
import type { FindingContext, FindingKind } from "../kind.ts";
import { isLoopTold, oscillationMeaning, oscillationNext, oscillationSummary } from "./oscillation-words.ts";

export const oscillationKind: FindingKind<OscillationEvidence> = {
  kind: "oscillation",
  guide: {
    title: "Oscillation",
    meaning:
      "An axis swung to and fro at one frequency for several cycles, and not because it was told to. A swing that grows, or one that is large, uses up the control that gusts and turns need.",
    method:
      "Tones are followed over time in frames of four cycles, in 0.2 Hz to 0.4 of the sample rate (50 Hz at most). A run of frames above three times the flight's own calm (less where more than 0.5 false alarms an hour are accepted), or near the absolute level of the alert table where a log holds no calm, is measured in a band of a factor 1.5 to either side: zero-phase filter, analytic signal. It counts if it lasts five cycles (three if it grows) off the floor and resembles itself two periods later as a wave does; how well, and how far above the calm, goes by the false alarms an hour that you accept (--false-alarms, 0.5 unless told otherwise). What a set point's steps within the last cycle or so account for is a damped loop's answer, and no oscillation. The onset is where its envelope passes the visible level; its interval allows for noise on the envelope, a calm that is known within a factor of two, and half a cycle of filter smear; before a swing that grows, also for the time (1.1 times that in which it grows by e) in which it may have been hidden in the calm, unless the envelope shows that it was not there. Growth and damping are the slope of the envelope's logarithm. The driver is told from the set points first, then from two measures together: how much of the measured angular acceleration the motors' moments account for, and the net work that these moments do in each cycle. How strongly and how late the axis answers its motors is fitted on the rest of the flight where set points moved enough (then the motors' lag, the delay besides and, where the moment's unit is known, the angular acceleration per moment are among the measures), else supposed from the aircraft file and from what is usual. The energy measure is that work over the largest kinetic energy of the swing; below zero the motors take energy out. Below 1.2 Hz the sideways specific force tells a load on a line: the rotors push along the body's own vertical, so a force in step with the tilt, many times what the air's drag makes, comes from something that hangs below. What it is said to follow is the last limit, set-point step, change of mode or gap within two seconds or three cycles before it.",
    limits:
      "A swing that a log shows from its first sample on has no onset. Without motor commands or a controller output the driver stays undetermined; without geometry the size of the motors' moment is unknown and its phase alone speaks. Where set points moved too little elsewhere in the flight, the moment of inertia is not measured but taken from mass and layout within a factor of about two. Without specific force in the log a load that swings under the aircraft may show as something from outside. The number of a rotor's blades is not known, so its lines are tried up to the fourth. That an event came just before does not make it the cause. Near half the sample rate a swing may be the image of a faster one.",
    sources: [
      "Brown 1991, J. Acoust. Soc. Am. 89(1):425-434 (tones over time)",
      "Miao and Seborg 1999, IEEE CCA (autocorrelation as an index of oscillation)",
      "Lazarus, Lewis, Stock and Watson 2018, J. Bus. Econ. Stat. 36(4):541-559 (interval of the growth)",
      "Maslennikov, Wang and Litvinov 2017, Int. J. Electr. Power Energy Syst. 90:55-62 (energy flow finds the source)",
      "Alert levels: 14 CFR 25.1322 read for the ground; thresholds: common practice",
    ],
    cautions: [CAUTIONS.mechanicalFirst, CAUTIONS.changingGains, CAUTIONS.flyingAfterFinding],
  },
  level: oscillationLevel,
  words(evidence, context, level) {
    return {
      summary: oscillationSummary(evidence, context),
      meaning: oscillationMeaning(evidence, level, endsInUpset(evidence, context)),
      cautions:
        evidence.driver === "commanded"
          ? []
          : [
              CAUTIONS.mechanicalFirst,
              ...(evidence.driver === "external" ? [CAUTIONS.gainsAreNotAuthority] : [CAUTIONS.changingGains]),
              CAUTIONS.flyingAfterFinding,
            ],
      next: oscillationNext(evidence),
    };
  },
  top: ({ decision, driver, trend, group, leads }) => ({
    ...(isLoopTold(decision) && { loop: decision.loop }),
    driver,
    trend,
    group,
    leads,
  }),
};

/** The level by amplitude and growth; what was commanded is a note, and one channel alone never makes a warning. */
export function oscillationLevel(evidence: OscillationEvidence, context: FindingContext): AlertLevel {
  if (evidence.driver === "commanded") return "note";
  const { caution, warning } = ALERT_TABLE.oscillation;
  const rate = evidence.measures.amplitude!.value;
  const angle = evidence.measures.angle!.value;
  const isGrowing = evidence.trend === "growing";
  const isAtLimit = evidence.atLimit || leastAuthority(evidence, context) < warning.leastAuthority;
  return highestLevel({
    advisory: true,
    caution: rate >= caution.rate || angle >= caution.angle || isGrowing,
    warning:
      evidence.witnesses.length > 0 && (rate >= warning.rate || angle >= warning.angle || (isGrowing && isAtLimit)),
  });
}

/** The least room left about the axis, if it fell that low while the axis oscillated. */
function leastAuthority({ axis, start, end }: OscillationEvidence, { evidence }: FindingContext): number {
  return evidence.reduce((least, other) => {
    if (other.kind !== "authority" || other.axis !== axis) return least;
    const isThen = other.leastAt >= start && other.leastAt <= end;
    return isThen ? Math.min(least, other.measures.least!.value) : least;
  }, 1);
}

/** s between the end of an oscillation and an upset that it led to */
const LEADS_TO = 1;

function endsInUpset({ start, end }: OscillationEvidence, { evidence }: FindingContext): boolean {
  return evidence.some(
    (other) => other.kind === "upset" && other.start > start && other.start - end < LEADS_TO && other.end >= end,
  );
}
