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
      "The accelerometer and the gyro are fitted with waves that turn with each rotor's logged speed, all rotors together, in blocks of five seconds (order tracking), for one, two and three waves per turn. A tone counts where it is three times what lies beside it and two and a half times the middle of all motors. Where no speeds are logged, lines that stand out of the spectrum are followed through each motor's command instead, because a rotor's frequency goes with its command; a line counts where nearly all of it keeps step with one motor, clearly better than with any other and than a steady tone would.",
    limits:
      "It needs a sensor logged more than twice as fast as the rotors turn; what the sample rate would fold down is left out, and a folded line does not keep step with a command. Without rotor speeds nothing tells whether a line comes once per turn or once per blade. Filters before the log take away from what is seen. Rotors whose speeds keep in step cannot be told apart, and then none is named.",
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
        (measures["over-others"]?.value ?? 0) >= caution.overOthers ||
        (unit === "m/s^2" && value >= caution.acceleration),
    });
  },
  words(evidence, context) {
    const { motor, order } = evidence;
    const name = context.motorName(motor);
    return {
      summary: summaryOf(evidence, capital(name)),
      meaning: [
        ...MEANING[order === null ? "unknown" : order === 1 ? "turn" : "blades"],
        ...harmonicWords(evidence),
      ].join(" "),
      cautions: [CAUTIONS.mechanicalFirst],
      next: [
        `With the battery disconnected, look at the propeller of ${name}: nicks, cracks, seating, right way up.`,
        "Balance the propeller or fit a new one of the same type, and fly the same hover again.",
        `Turn ${name} by hand, the battery still disconnected: bearing play, shaft, bell, mounting screws.`,
        "Check that its arm and clamp hold firmly.",
      ],
    };
  },
};

const MEANING = {
  turn: [
    "Something on that rotor is out of balance: a nicked blade, a blade that sits off centre, a bent shaft, a worn bearing.",
  ],
  blades: ["The blades of that rotor do not pull alike: a nick, a crack, a blade that sits wrong."],
  unknown: [
    "Something on that rotor is out of balance, or its blades do not pull alike: a nicked blade, a blade that sits off centre, a bent shaft, a worn bearing.",
    "Without the rotor's speed in the log it stays open whether the shake comes once per turn or once per blade.",
  ],
};

function summaryOf({ channel, from, order, measures }: VibrationEvidence, name: string): string {
  const frequency = measureWords("frequency", measures.frequency!);
  const size = `${measureWords("amplitude", measures.amplitude!)} in ${plainText(channel, 40)}`;
  if (from === "command" || order === null) {
    return `${name} shakes the aircraft at ${frequency}, a tone that rises and falls with its command: ${size}.`;
  }
  const times = numberWords(measures["over-others"]!.value, 2);
  return `${name} shakes the aircraft ${perTurn(order)}, at ${frequency}: ${size}, ${times} times as much as the middle of all motors.`;
}

const perTurn = (order: number) => (order === 1 ? "once per turn" : `${order} times per turn`);

function harmonicWords({ measures }: VibrationEvidence): string[] {
  const parts = [2, 3].flatMap((order) => {
    const amplitude = measures[`amplitude-${order}`];
    return amplitude === undefined ? [] : [`${perTurn(order)} with ${measureWords("amplitude", amplitude)}`];
  });
  return parts.length === 0 ? [] : [`The same rotor also shakes ${parts.join(" and ")}.`];
}
