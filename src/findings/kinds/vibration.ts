import type { VibrationEvidence } from "../../detect/index.ts";
import { capital, measureWords, numberWords, plainText } from "../../words/index.ts";
import { ALERT_TABLE, highestLevel } from "../alert-levels.ts";
import { CAUTIONS } from "../cautions.ts";
import type { FindingKind } from "../kind.ts";

export const vibrationKind: FindingKind<VibrationEvidence> = {
  kind: "vibration",
  guide: {
    title: "Vibration that follows one rotor",
    meaning:
      "A rotor that is out of balance shakes the aircraft once per turn, a damaged or loose blade also once per blade. The shake follows that motor's speed, which tells which motor it is.",
    method:
      "The accelerometer and the gyro are fitted with waves that turn with each rotor's logged speed, all rotors together, in blocks of five seconds (order tracking), for one, two and three waves per turn. A tone counts where it is three times what lies beside it and two and a half times the middle of all motors.",
    limits:
      "It needs rotor speeds and a sensor logged more than twice as fast as the rotors turn; what the sample rate would fold down is left out. Filters before the log take away from what is seen. Rotors whose speeds keep in step cannot be told apart, and then none is named.",
    sources: [
      "Vold and Leuridan 1993; Fyfe and Munck 1997 (order tracking)",
      "ISO 21940-11 (what rotor balance means)",
      "Thresholds: common practice",
    ],
    cautions: [CAUTIONS.propellers, CAUTIONS.mechanicalFirst],
  },
  level({ measures }) {
    const { caution } = ALERT_TABLE.vibration;
    const { value, unit } = measures.amplitude!;
    return highestLevel({
      advisory: true,
      caution:
        measures["over-others"]!.value >= caution.overOthers || (unit === "m/s^2" && value >= caution.acceleration),
    });
  },
  words({ motor, channel, order, measures }, context) {
    const name = context.motorName(motor);
    const per = order === 1 ? "once per turn" : `${order} times per turn`;
    return {
      summary: `${capital(name)} shakes the aircraft ${per}, at ${measureWords("frequency", measures.frequency!)}: ${measureWords("amplitude", measures.amplitude!)} in ${plainText(channel, 40)}, ${numberWords(measures["over-others"]!.value, 2)} times as much as the middle of all motors.`,
      meaning:
        order === 1
          ? "Something on that rotor is out of balance: a nicked blade, a blade that sits off centre, a bent shaft, a worn bearing."
          : "The blades of that rotor do not pull alike: a nick, a crack, a blade that sits wrong.",
      cautions: [CAUTIONS.mechanicalFirst],
      next: [
        `With the battery disconnected, look at the propeller of ${name}: nicks, cracks, seating, right way up.`,
        "Balance the propeller or fit a new one of the same type, and fly the same hover again.",
        `Turn ${name} by hand: bearing play, shaft, bell, mounting screws.`,
        "Check that its arm and clamp hold firmly.",
      ],
    };
  },
};
