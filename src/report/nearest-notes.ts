import type { Finding } from "../findings/finding.ts";

/** Of the notes of each kind and loop the one that came nearest to trouble; kinds that have no such order keep all. */
export function nearestNotes(notes: readonly Finding[]): Finding[] {
  const nearest = new Map<string, Finding>();
  for (const note of notes) {
    const key = NEARNESS[note.kind] === undefined ? note.id : `${note.kind} ${note.loop ?? ""}`;
    const known = nearest.get(key);
    if (known === undefined || nearnessOf(note) - nearnessOf(known) > ALIKE) nearest.set(key, note);
  }
  return [...nearest.values()];
}

/** Closer than this (in the unit of the measure) is alike, and the first of those stays: only rounding tells them apart. */
const ALIKE = 1e-6;

/** The more, the nearer, and nowhere near without the measure; measures of one kind and loop share their units. */
const NEARNESS: Readonly<Record<string, (measure: (key: string) => number) => number>> = {
  "motor-headroom": (measure) => -Math.min(measure("above"), measure("below")),
  authority: (measure) => -measure("least"),
  tracking: (measure) => measure("p95"),
};

function nearnessOf({ kind, measures }: Finding): number {
  const nearness =
    NEARNESS[kind]?.((key) => {
      const measure = measures[key];
      return measure !== undefined && "value" in measure ? measure.value : Number.NaN;
    }) ?? 0;
  return Number.isNaN(nearness) ? Number.NEGATIVE_INFINITY : nearness;
}
