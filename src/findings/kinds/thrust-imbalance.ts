import type { ThrustImbalanceEvidence } from "../../detect/index.ts";
import { ALERT_TABLE, highestLevel } from "../alert-levels.ts";
import { CAUTIONS } from "../cautions.ts";
import { imbalanceChecks } from "../imbalance-checks.ts";
import type { FindingContext, FindingKind } from "../kind.ts";
import { imbalanceAsides } from "./imbalance-asides.ts";
import { hintWords, imbalanceMeaning } from "./imbalance-meaning.ts";
import { imbalanceSummary } from "./imbalance-summary.ts";

export const thrustImbalanceKind: FindingKind<ThrustImbalanceEvidence> = {
  kind: "thrust-imbalance",
  guide: {
    title: "Load shared unevenly among the motors",
    meaning:
      "In hover all motors should work about equally hard. When they do not, the pattern tells what to look for: one motor that needs more command (a damaged or wrong propeller, a tired motor), one spin direction that works harder (a motor that stands twisted on its arm, propellers of unequal pitch), or a whole side (the centre of gravity).",
    method:
      "Commands in steady flight become thrust demands, (command fraction) to the power of the thrust curve's exponent, or the square of rotor speed where logged. Their means over blocks of a second or more give shares of the total with an interval; slow drifting is led back to zero speed. The shares' centre is the centre of gravity, what one spin direction carries more is a yaw moment that something makes. A weak motor, several, a spin pair, a centre of gravity and a group are weighed by their marginal likelihood beside what aircraft in order show, and so are a spin pair together with a weak motor, a group or a centre of gravity. With a baseline flight the change of the shares is weighed instead, beside what flights of one aircraft differ by; total demands are compared with battery voltage and the masses of the aircraft files allowed for. The loss of a motor, the yaw moment beside it and the tilt of one motor that would make this moment come by generalised least squares: their intervals hold what the second cause and the usual differences among loads in order may take or add, that of the loss without a baseline too. With more than four motors, what is left beside thrust, roll, pitch and yaw is measured too.",
    limits:
      "Four motors give three numbers, so without a baseline some patterns look alike; the finding lists those that it cannot tell apart. A second fault may then hide behind a first: a motor that lost 15 % beside another that leaned by 2 degrees went unnamed in four of ten simulated flights. Wind and drag shift the load as the centre of gravity does; hover in calm air shows it cleanest. Millimetres rest on the motor places of the aircraft file and degrees on its torque ratio. Which motor is tilted the balance does not tell, and a motor that carries more needs less tilt for the same moment: each motor's own tilt is given, the value for whichever motor it is takes the more probable, and its interval spans the probable ones. Of two motors on one arm either would make the same moment and the same side force at the same place. The centre of gravity and the spin bias are where the load lies, and their intervals are of that: without a baseline, motors that differ as those of one batch do (1.5 %) move it by half a percent of an arm's length or so. The tilt is given only where a spin pair is a cause or as likely an answer. Against a baseline the loss of one motor is what these two flights show; flights of one build differ by half a percent a motor besides.",
    sources: [
      "Statics of hover: moments about the centre of gravity add up to nothing",
      "MacKay 2003, chapter 28 (marginal likelihood); Kass and Raftery 1995 (scale of Bayes factors)",
      "Thresholds: common practice",
    ],
    cautions: [CAUTIONS.mechanicalFirst, CAUTIONS.propellers],
  },
  level(evidence, context) {
    const { advisory, caution, warning } = ALERT_TABLE["thrust-imbalance"];
    const sure = evidence.perMotor.excess!.filter(({ low, high }) => low! * high! > 0);
    const largest = Math.max(0, ...sure.map(({ value }) => Math.abs(value)));
    const enough = evidence.isAgainstBaseline ? caution.excessAgainstBaseline : caution.excess;
    const isTold = largest >= advisory.excess;
    // What is told as a hint asks for a look and no more.
    const isFault = !evidence.isUsual;
    const isAtCeiling = isTold && evidence.motors.some((motor) => isAtLimit(motor, context));
    return highestLevel({
      advisory: isTold,
      caution: isFault && largest >= enough,
      warning: isFault && (largest >= warning.excess || isAtCeiling),
    });
  },
  words(evidence, context, level) {
    return {
      summary: imbalanceSummary(evidence, context),
      meaning: [...hintWords(evidence), imbalanceMeaning(evidence, context), ...imbalanceAsides(evidence)].join(" "),
      cautions: level === "note" ? [CAUTIONS.mechanicalFirst] : [CAUTIONS.mechanicalFirst, CAUTIONS.flyingAfterFinding],
      next: imbalanceChecks(evidence, context).slice(0, level === "note" ? 1 : undefined),
    };
  },
  top({ pattern, besides, motors, motor, alternatives }) {
    return {
      pattern,
      ...(besides !== undefined && { besides }),
      ...(motor === undefined && motors.length > 0 && { motors: [...motors] }),
      ...(alternatives.length > 0 && { alternatives: [...alternatives] }),
    };
  },
};

/** At its ceiling for long enough to be a caution by itself: a touch at take-off does not count. */
const isAtLimit = (motor: number, { evidence }: FindingContext) =>
  evidence.some((other) => {
    if (other.kind !== "motor-saturation" || other.motor !== motor) return false;
    const { caution } = ALERT_TABLE["motor-saturation"];
    return other.measures.share!.value >= caution.share || other.measures.longest!.value >= caution.longest;
  });
