import { type MotorHeadroomEvidence, SPENT } from "../../detect/index.ts";
import { capital, numberWords, percentWords } from "../../words/index.ts";

import { ALERT_TABLE, highestLevel } from "../alert-levels.ts";
import { CAUTIONS } from "../cautions.ts";
import type { FindingKind } from "../kind.ts";

export const motorHeadroomKind: FindingKind<MotorHeadroomEvidence> = {
  kind: "motor-headroom",
  guide: {
    title: "Room left to a motor",
    meaning:
      "How much of its command range a motor did not need, above and below. What is left is what a gust, a turn or a heavier payload can still draw on.",
    method:
      "The command in the air as a fraction of the range min to max of the aircraft file. Room above is what lies beyond its 99th percentile, room below what lies between its 1st percentile and the armed floor (idle). Thrust left uses thrust = fraction to the power of the aircraft file's exponent, 2 where it has none. The forecast of speed fits thrust left (99th and 1st percentile) in hover without turning and on each steady leg to speed squared and, out and back apart, to speed (a steady wind), and says at which speed over ground less than 2 % is left on the way that meets it first. Beyond the fastest step thrust left is taken to fall half as fast again as the fit has it, give or take a quarter, because thrust grows faster than drag as the aircraft tilts into it; both shares were chosen on simulated flights. The 90 % interval is that of one more leg. How thrust at a given command goes with battery voltage is read from what all motors together were asked for; where it is known, legs are compared at one voltage, and the voltage is told at which full command would give no more than the flight asked for.",
    limits:
      "Percentiles leave out the shortest peaks; those that reach a limit are reported as motor-saturation or motor-floor. A flight in calm air says little about room in wind. A forecast is given only up to 1.5 times the fastest steady leg, needs three speeds or more (hover counts as one), and holds for the same weight, wind and battery only. It does not foresee a loop that begins to swing before a motor runs out. A voltage is told only down to 0.85 times the lowest steady one.",
    sources: [
      "Aircraft file: command, thrust.exponent",
      "Hyndman and Fan 1996 (type 7 quantiles)",
      "Draper and Smith, Applied Regression Analysis, section 3.2 (inverse regression)",
      "Thresholds: common practice",
    ],
    cautions: [CAUTIONS.gainsAreNotAuthority],
  },
  level({ measures }) {
    const { advisory, caution } = ALERT_TABLE["motor-headroom"];
    const left = Math.min(measures.above!.value, measures.below!.value);
    return highestLevel({ advisory: left < advisory.left, caution: left < caution.left });
  },
  words({ motor, measures, limitsFrom, trend: { forecast, voltageForecast } }, context, level) {
    const above = measures.above!.value;
    const below = measures.below!.value;
    const source = limitsFrom === "data" ? " (range taken from this log, as no aircraft file was given)" : "";
    const side = above <= below ? "above" : "below";
    return {
      summary: `${capital(context.motorName(motor))} had ${room(above)} of its command range left above and ${room(below)} below, the outermost 1 % of samples either way left out; its mean command was ${percentWords(measures.mean!.value)}${source}.${forecast === null ? "" : forecastWords(forecast)}${voltageForecast === null ? "" : voltageWords(voltageForecast)}`,
      meaning:
        level === "note"
          ? "Enough room both ways for what this flight asked."
          : side === "above"
            ? "Little is left for a gust, a turn or more weight before this motor is at its ceiling."
            : "Little is left before this motor rests on its floor and cannot give way any further.",
      cautions: level === "note" ? [] : [CAUTIONS.gainsAreNotAuthority],
      next:
        level === "note"
          ? []
          : [
              "Compare with the other motors in the table of room left: one that stands out carries more than its share.",
              "Check weight, centre of gravity and payload position before flying faster, heavier or in more wind.",
            ],
    };
  },
};

const room = (share: number) => (share <= 0 ? "none" : percentWords(share));

function forecastWords({
  limit,
  speed,
  low,
  high,
  range,
  way,
}: NonNullable<MotorHeadroomEvidence["trend"]["forecast"]>): string {
  const ends =
    high === undefined
      ? `${numberWords(low)} m/s or more`
      : `between ${numberWords(low)} and ${numberWords(high)} m/s, 90 % interval`;
  return ` Its thrust left shrinks with speed: the trend brings it within ${percentWords(SPENT)} of full thrust of its ${limit} at about ${numberWords(speed)} m/s over ground${way === 0 ? "" : way === 1 ? " on the way out" : " on the way back"} (${ends}; told up to ${numberWords(range)} m/s only).`;
}

function voltageWords({
  voltage,
  low,
  high,
  range,
  speed,
}: NonNullable<MotorHeadroomEvidence["trend"]["voltageForecast"]>): string {
  const ends =
    low === undefined
      ? `${numberWords(high)} V or less`
      : `between ${numberWords(low)} and ${numberWords(high)} V, 90 % interval`;
  const condition = speed === 0 ? "in hover" : `at ${numberWords(speed)} m/s`;
  return ` Its thrust left shrinks as the battery empties: ${condition} it comes within ${percentWords(SPENT)} of full thrust of its ceiling at about ${numberWords(voltage)} V (${ends}; told down to ${numberWords(range)} V only).`;
}
