import type { MotorResponseEvidence } from "../../detect/index.ts";
import { capital, measureWords, secondsWords } from "../../words/index.ts";

import { ALERT_TABLE, highestLevel } from "../alert-levels.ts";
import { CAUTIONS } from "../cautions.ts";
import type { FindingContext, FindingKind } from "../kind.ts";

export const motorResponseKind: FindingKind<MotorResponseEvidence> = {
  kind: "motor-response",
  guide: {
    title: "Motor that does not follow",
    meaning:
      "A motor, its controller or its propeller did not do what was asked: it gave less than its command, from one moment on or all the time, or it followed too late.",
    method:
      "Where rotor speeds or motor currents are logged, each motor's is compared with what its command explains, and that ratio with the middle of all motors; the delay is the lag of the highest cross-correlation with the command. Where body rates are logged, the mean commands of two seconds before and after each moment are compared as well: a motor that lost thrust needs a larger command for the same lift and moments, which changes the commands in one known pattern (for four motors that of this motor alone). While what turns the nose changes for other reasons, lift, roll and pitch alone are compared; else yaw tells a loss from a load that was lifted. The knock that the loss gives the body confirms it and tells the moment.",
    limits:
      "A load that is lifted or moves onto one arm while the nose turns looks the same as a loss there; the finding then says so. Without body rates too much looks the same, and no sudden loss is looked for. A loss below a tenth, or one that comes in slowly, is left to thrust-imbalance. With all motors alike short of their commands nothing stands out: that is the battery.",
    sources: [
      "Thrust goes with the square of rotor speed, power with the 3/2 power of thrust: momentum theory",
      "Knapp and Carter 1976, IEEE Trans. ASSP 24(4):320-327 (delay)",
      "Thresholds: common practice",
    ],
    cautions: [CAUTIONS.mechanicalFirst, CAUTIONS.propellers, CAUTIONS.flyingAfterFinding],
  },
  level({ sign, measures, usual, isYawKnown }) {
    const { caution, warning } = ALERT_TABLE["motor-response"];
    const deficit = measures.deficit?.value ?? 0;
    const late = (measures.delay?.value ?? 0) - (usual ?? 0);
    return highestLevel({
      advisory: true,
      caution: sign === "sudden-loss" || deficit >= caution.deficit || late >= caution.late,
      // Without yaw a load that was lifted or has moved explains commands and knock as well.
      warning: sign === "sudden-loss" && isYawKnown && deficit >= warning.suddenDeficit,
    });
  },
  words(evidence, context) {
    const { motor, sign } = evidence;
    const name = context.motorName(motor);
    return {
      summary: summaryOf(evidence, context),
      meaning:
        sign === "slow"
          ? "A motor that follows late takes phase out of every loop that it serves: the aircraft rings sooner than with motors that are alike."
          : "The other motors and the integrators make up for what is missing, so the aircraft may look well until a gust or a turn asks for the rest.",
      cautions: [CAUTIONS.mechanicalFirst, CAUTIONS.propellers, CAUTIONS.flyingAfterFinding],
      next: [
        `With the battery disconnected, look at the propeller of ${name}: broken tip, slipping hub, loose nut, wrong type.`,
        "Turn the motor by hand, the battery still disconnected, and compare with the others: bearings, rubbing, a loose magnet or mount.",
        "Check its wires, solder joints and plug, and the setting and temperature record of its motor controller.",
        "On a test stand or tied down, compare speed and current of all motors at the same commands.",
      ],
    };
  },
  top: ({ sign, by, isYawKnown }) => ({
    pattern: sign,
    evidence: by,
    ...(sign === "sudden-loss" && !isYawKnown && { alternatives: ["lifted-load"] }),
  }),
};

function summaryOf(
  { motor, sign, by, measures, start, usual, isYawKnown }: MotorResponseEvidence,
  context: FindingContext,
): string {
  const name = capital(context.motorName(motor));
  const deficit = measures.deficit === undefined ? "" : measureWords("deficit", measures.deficit);
  if (sign === "sudden-loss") {
    const asked = `needed a command for more thrust than before, as if ${deficit} of its thrust had been lost`;
    return isYawKnown
      ? `${name} suddenly gave less thrust at ${secondsWords(start)}: from then on it ${asked}. The body was knocked towards it at that moment.`
      : `From ${secondsWords(start)} on ${context.motorName(motor)} ${asked}, or a load had been lifted or had moved there. The body was knocked towards it at that moment; what turns the nose changed meanwhile, so the two look the same.`;
  }
  if (sign === "short") {
    const what = by === "speed" ? "turned slower" : "drew less current";
    return `${name} ${what} than the other motors at the same command, by ${deficit}.`;
  }
  const than = usual === null ? "" : `, the others ${secondsWords(usual)}`;
  return `${name} followed its command only after ${measureWords("delay", measures.delay!)}${than}.`;
}
