import {
  type ComparedFlights,
  type FlownCondition,
  type JudgedRow,
  type MeasuredFlight,
  TABLES,
  type Unpaired,
} from "../../compare/index.ts";
import { numberWords } from "../../words/index.ts";
import { CAUTIONS } from "../cautions.ts";
import type { Comparison, ComparisonRow } from "./comparison.ts";
import { COMPARISON_METHODS } from "./methods.ts";
import { nextStepWords } from "./next-step-words.ts";
import { quantityName, TABLE_TITLES, verdictWord } from "./quantity-words.ts";
import { statementsOf } from "./statements.ts";

/** What a comparison needs besides its numbers. */
export interface ComparisonContext {
  readonly before: Omit<Comparison["before"], "air">;
  readonly after: Omit<Comparison["after"], "air">;
  readonly aircraft: Comparison["aircraft"];
  readonly run: Comparison["run"];
  motorName(motor: number): string;
}

/** Puts words to a comparison: names, verdicts, statements, what was left out. */
export function makeComparison(compared: ComparedFlights, context: ComparisonContext): Comparison {
  const { motorName } = context;
  const flight = (side: "before" | "after"): Comparison["before"] => {
    const { airBy, wind } = compared[side];
    return { ...context[side], air: { by: airBy, wind: wind === null ? null : { ...wind } } };
  };
  const after = flight("after");
  const told = {
    before: flight("before"),
    after,
    conditions: compared.pairs.map((pair) => conditionOf(pair, compared)),
    tables: TABLES.map((id) => ({
      id,
      title: TABLE_TITLES[id],
      rows: compared.tables[id].map((row) => rowOf(row, motorName)),
    })).filter(({ rows }) => rows.length > 0),
    mission: missionOf(compared),
    nextStep: compared.nextStep === null ? null : nextStepWords(compared.nextStep, after, motorName),
    leftOut: leftOutOf(compared, motorName),
  };
  return {
    schema: "fettle/comparison@1",
    run: context.run,
    aircraft: context.aircraft,
    statements: statementsOf(told),
    ...told,
    methods: COMPARISON_METHODS.map((method) => ({ ...method, sources: [...method.sources] })),
    cautions: [CAUTIONS.authority, CAUTIONS.propellers, CAUTIONS.changingGains, CAUTIONS.absence],
  };
}

function conditionOf(
  { id, before, after }: ComparedFlights["pairs"][number],
  compared: ComparedFlights,
): Comparison["conditions"][number] {
  const legsOf = ({ replicates }: FlownCondition, flight: MeasuredFlight) =>
    replicates.map((leg) => ({
      start: leg.start,
      end: leg.end,
      direction: leg.direction,
      ground: leg.ground?.speed ?? null,
      air: flight.air?.get(leg) ?? null,
      power: flight.valueOf("power", leg),
    }));
  const speeds = [before.speed, after.speed].filter((speed) => speed !== null);
  const mean = speeds.reduce((sum, speed) => sum + speed, 0) / Math.max(1, speeds.length);
  const name = before.kind === "cruise" ? `${numberWords(mean, 2)} m/s` : before.kind;
  return {
    id,
    kind: before.kind,
    name,
    speed: { before: before.speed, after: after.speed },
    legs: { before: legsOf(before, compared.before), after: legsOf(after, compared.after) },
  };
}

function rowOf(row: JudgedRow, motorName: (motor: number) => string): ComparisonRow {
  const { quantity, condition, replicates, verdict } = row;
  const { key, axis, loop, motor, scale, unit } = quantity;
  const base = {
    quantity: key,
    name: quantityName(quantity, motorName),
    ...(axis !== undefined && { axis }),
    ...(loop !== undefined && { loop }),
    ...(motor !== undefined && { motor }),
    condition,
    replicates: { ...replicates },
    scale,
    unit,
    verdict,
  };
  if (row.kind !== "compared") return { ...base, word: verdictWord(verdict, undefined) };
  return {
    ...base,
    word: verdictWord(verdict, row.difference.value),
    ...(row.before !== null && { before: { ...row.before, unit } }),
    ...(row.after !== null && { after: { ...row.after, unit } }),
    difference: { ...row.difference, unit: scale === "ratio" ? "1" : unit },
    detectable: row.detectable,
    degreesOfFreedom: row.degreesOfFreedom,
    p: row.pValue,
    adjusted: row.adjusted!,
    wind: row.windTerm,
  };
}

function missionOf({ mission }: ComparedFlights): Comparison["mission"] {
  if (mission === null) return null;
  const { parts, before, after, difference } = mission;
  return {
    parts,
    before: { ...before },
    after: { ...after },
    difference: difference === null ? null : { ...difference, unit: "1" },
  };
}

function leftOutOf(compared: ComparedFlights, motorName: (motor: number) => string): Comparison["leftOut"] {
  const { before, after, unpaired, onlyIn, powerBy, tables, mission, pairs } = compared;
  const names = new Map<string, string>();
  for (const { flight, quantity } of onlyIn) {
    const other = flight === "before" ? "after" : "before";
    names.set(quantityName(quantity, motorName), `the channels are missing in the flight ${other}`);
  }
  const lines = [
    ...unpaired.map(unpairedLine),
    ...[...names].map(([subject, why]) => ({ subject, why })),
    ...(powerBy === null
      ? [
          {
            subject: "Electrical power",
            why: "needs battery.power, or battery.voltage and battery.current, in both flights",
          },
        ]
      : []),
    ...(["roll", "pitch", "yaw"] as const)
      .filter((axis) => tables[axis].length === 0)
      .map((axis) => ({
        subject: `Steadiness of ${axis}`,
        why: `needs rate.${axis}.measured and rate.${axis}.setpoint in both flights`,
      })),
    ...(tables.room.length === 0
      ? [{ subject: "Room left to the motors", why: "needs motor.N.command in both flights and the aircraft file" }]
      : []),
  ];
  const isCruise = pairs.some((pair) => pair.before.kind === "cruise");
  if (isCruise && (before.air === null || after.air === null)) {
    lines.push({
      subject: "The wind",
      why: "could not be told in both flights (it takes speed.air, or velocity over ground, heading and attitude on legs both ways): legs out and back were averaged, which leaves what the square of the wind does. At a wind of half the leg speed that can be several percent of the power",
    });
  }
  if ((["roll", "pitch", "yaw"] as const).some((axis) => tables[axis].length > 0)) {
    lines.push({
      subject: "How gusty each day was",
      why: "no channel tells it apart from the change: errors and swings grow with the gusts, so a difference in steadiness speaks of the aircraft only if the air was alike",
    });
  }
  if (mission !== null && mission.difference === null) {
    lines.push({
      subject: "An interval for the whole mission",
      why: "the flights do not have the same legs in the same order",
    });
  }
  return lines;
}

function unpairedLine({ flight, condition }: Unpaired): { subject: string; why: string } {
  const { kind, speed } = condition;
  const what =
    kind === "cruise" ? `The speed step ${speed === null ? "" : `${numberWords(speed, 2)} m/s`}` : `The ${kind}`;
  return { subject: what.trim(), why: `was flown only in the flight ${flight}` };
}
