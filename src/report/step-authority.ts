import type { Diagnosis } from "../findings/diagnosis.ts";
import { numberWords, turnWords } from "../words/index.ts";

/** Room to turn that was left in hover or at one speed step, one entry a turn. */
export interface StepRow {
  /** `hover`, `step 3, 10.1 m/s` */
  readonly subject: string;
  readonly ways: ReadonlyMap<string, { readonly least: number; readonly median: number; readonly motor: number }>;
}

const STEP_KEY = /^(least|median)-(in-hover|at-step-\d+)$/;

/** Whether a measure belongs to the table of steps; lists of a finding's own numbers leave it out. */
export const isStepMeasure = (key: string): boolean => STEP_KEY.test(key);

/** Hover first, then the steps in the order of their numbers; empty where no authority was measured by steps. */
export function stepAuthority({ findings, phases }: Pick<Diagnosis, "findings" | "phases">): StepRow[] {
  const rows = new Map<string, Map<string, { least: number; median: number; motor: number }>>();
  for (const { kind, axis, direction, measures } of findings) {
    if (kind !== "authority" || axis === undefined || direction === undefined) continue;
    for (const [key, value] of Object.entries(measures)) {
      const [, what, step] = STEP_KEY.exec(key) ?? [];
      const median = measures[`median-${step}`];
      const first = Array.isArray(value) ? value[0] : undefined;
      if (what !== "least" || first === undefined || median === undefined || Array.isArray(median)) continue;
      const row = rows.get(step!) ?? new Map();
      row.set(turnWords(axis, direction) ?? `${axis} ${direction}`, {
        least: first.value,
        median: median.value,
        motor: first.motor,
      });
      rows.set(step!, row);
    }
  }
  const number = (key: string) => (key === "in-hover" ? 0 : Number(key.slice("at-step-".length)));
  return [...rows]
    .sort(([a], [b]) => number(a) - number(b))
    .map(([key, ways]) => ({ subject: key === "in-hover" ? "hover" : stepName(number(key), phases), ways }));
}

function stepName(step: number, phases: Diagnosis["phases"]): string {
  const legs = phases.filter((phase) => phase.step === step && phase.speed !== null);
  const seconds = legs.reduce((sum, { start, end }) => sum + end - start, 0);
  const speed = legs.reduce((sum, leg) => sum + leg.speed! * (leg.end - leg.start), 0) / seconds;
  return seconds > 0 ? `step ${step}, ${numberWords(speed)} m/s` : `step ${step}`;
}
