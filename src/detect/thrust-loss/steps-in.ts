import type { View } from "./command-view.ts";
import { type Step, stepAt } from "./step-at.ts";
import { wanderOf, widenedBy } from "./wander.ts";
import { CELL, WINDOWS } from "./windows.ts";

/** A step of the commands as a motor's loss of thrust would make it, and where it lies. */
export interface Candidate extends Step {
  readonly cell: number;
  /** s, before the knock tells the moment */
  readonly at: number;
}

/** The steps in one view of the commands, in order, windows of one never in those of another. */
export function stepsIn(view: View): Candidate[] {
  const { before, after, gap } = WINDOWS;
  const candidates: Candidate[] = [];
  for (let cell = before; cell + gap + after <= view.count; cell++) {
    const step = stepAt(view, cell);
    if (step !== null) candidates.push({ ...step, cell, at: view.start + cell * CELL });
  }
  const kept = strongest(candidates, gap + after);
  if (kept.length === 0) return [];
  const wander = wanderOf(
    view,
    kept.map(({ cell }) => cell),
  );
  return kept.map((one) => ({ ...one, ...widenedBy(wander, one) }));
}

/** Of candidates nearer than `apart` cells the one that stands out most. */
function strongest(found: readonly Candidate[], apart: number): Candidate[] {
  const kept: Candidate[] = [];
  for (const one of [...found].sort((a, b) => b.standingOut - a.standingOut)) {
    if (kept.every(({ cell }) => Math.abs(cell - one.cell) > apart)) kept.push(one);
  }
  return kept.sort((a, b) => a.cell - b.cell);
}
