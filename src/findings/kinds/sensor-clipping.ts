import type { SensorClippingEvidence } from "../../detect/index.ts";
import { capital, countWords, measureWords, percentWords, secondsWords } from "../../words/index.ts";

import { ALERT_TABLE, highestLevel } from "../alert-levels.ts";
import { CAUTIONS } from "../cautions.ts";
import type { FindingKind } from "../kind.ts";

export const sensorClippingKind: FindingKind<SensorClippingEvidence> = {
  kind: "sensor-clipping",
  guide: {
    title: "Sensor at the end of its range",
    meaning:
      "A gyro or accelerometer met the largest value that it, or the logger, can show. What the aircraft really did there was more, and a controller that is fed such values is misled: an oscillation may look smaller than it is, or be made by it.",
    method:
      "Out near the largest and the smallest value of the channel in the air: where one and the same value is held for three samples or more, at least twice, and most samples out there lie on it, it is the end of a range. The share counts all samples at that value.",
    limits:
      "A range that was met for single samples only is not seen. Filters between sensor and logger round the plateaus off, and then nothing shows.",
    sources: ["Definitions of this project; see the method"],
    cautions: [CAUTIONS.mechanicalFirst],
  },
  level({ measures }) {
    const { caution } = ALERT_TABLE["sensor-clipping"];
    const isLong = measures.share!.value >= caution.share || measures.longest!.value >= caution.longest;
    return highestLevel({ advisory: true, caution: isLong });
  },
  words({ channel, measures, stretches }) {
    return {
      summary: `${capital(channel)} was at the end of its range, ${measureWords("limit", measures.limit!)}, for ${percentWords(measures.share!.value)} of the air time, in ${countWords(stretches.length, "stretch", "stretches")}, the first at ${secondsWords(stretches[0]!.start)}, the longest ${secondsWords(measures.longest!.value)}.`,
      meaning:
        "Whatever is said about this channel at these times is said of a value that was cut off; amplitudes there are lower bounds.",
      cautions: [CAUTIONS.mechanicalFirst],
      next: [
        "Look for vibration that adds to the motion: propellers, bearings, the mounting of the flight controller.",
        "Set the sensor to a wider range if it has one, and see whether the range of the logger is as wide.",
      ],
    };
  },
};
