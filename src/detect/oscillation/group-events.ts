import type { OscillationEvidence } from "./oscillation.ts";

/** Frequencies of axes within this ratio of each other belong to one event. */
const SAME_FREQUENCY = 1.15;

type Ungrouped = Omit<OscillationEvidence, "group" | "leads">;

/** Joins axes that oscillate at one frequency at one time; the one that began first leads, the larger if together. */
export function groupEvents(found: readonly Ungrouped[]): OscillationEvidence[] {
  const groups: Ungrouped[][] = [];
  for (const one of found) {
    const group = groups.find((others) => others.some((other) => isSame(one, other)));
    if (group === undefined) groups.push([one]);
    else group.push(one);
  }
  return groups.flatMap((members, index) => {
    const leader = members.reduce((first, one) => (isBefore(one, first) ? one : first));
    return members.map((one) => ({ ...one, group: String(index + 1), leads: one === leader }));
  });
}

function isSame(a: Ungrouped, b: Ungrouped): boolean {
  const ratio = a.measures.frequency!.value / b.measures.frequency!.value;
  return ratio < SAME_FREQUENCY && ratio > 1 / SAME_FREQUENCY && a.start < b.end && b.start < a.end;
}

function isBefore(a: Ungrouped, b: Ungrouped): boolean {
  const cycle = 1 / b.measures.frequency!.value;
  if (Math.abs(a.start - b.start) > cycle) return a.start < b.start;
  return a.measures.amplitude!.value > b.measures.amplitude!.value;
}
