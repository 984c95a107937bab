import type { Span } from "../log/channel.ts";
import type { AuthorityEvidence } from "./authority.ts";

type Ungrouped = Omit<AuthorityEvidence, "group" | "leads">;

/** Ways that share this part of the shorter one's time with less than a tenth left ran out in one event. */
const SHARED = 0.5;

/**
 * A motor at its limit takes control from several axes and ways at once: those that ran out in the same stretches get
 * one group, led by the one that was without control for longest. The others, and those that never ran out, stand alone.
 */
export function groupAuthority(found: readonly Ungrouped[]): AuthorityEvidence[] {
  const groups: Ungrouped[][] = [];
  for (const one of [...found].sort((a, b) => secondsOf(b.stretches) - secondsOf(a.stretches))) {
    if (one.stretches.length === 0) continue;
    // With the leader, not with any member: chains of neighbours would join what has nothing in common.
    const group = groups.find(([leader]) => isSame(leader!.stretches, one.stretches));
    if (group === undefined) groups.push([one]);
    else group.push(one);
  }
  const joined = groups.filter(({ length }) => length > 1);
  return found.map((one) => {
    const index = joined.findIndex((group) => group.includes(one));
    return index < 0 ? one : { ...one, group: `authority-${index + 1}`, leads: joined[index]![0] === one };
  });
}

function isSame(a: readonly Span[], b: readonly Span[]): boolean {
  let shared = 0;
  for (let i = 0, k = 0; i < a.length && k < b.length; ) {
    shared += Math.max(0, Math.min(a[i]!.end, b[k]!.end) - Math.max(a[i]!.start, b[k]!.start));
    if (a[i]!.end < b[k]!.end) i++;
    else k++;
  }
  return shared >= SHARED * Math.min(secondsOf(a), secondsOf(b)) && shared > 0;
}

const secondsOf = (stretches: readonly Span[]) => stretches.reduce((sum, { start, end }) => sum + end - start, 0);
