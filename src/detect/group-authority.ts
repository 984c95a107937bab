import type { Span } from "../log/channel.ts";
import type { AuthorityEvidence } from "./authority.ts";

type Ungrouped = Omit<AuthorityEvidence, "group" | "leads">;

/** Ways that share this part of the shorter one's time with less than a tenth left ran out in one event. */
const SHARED = 0.5;

/** Less than this left is worth knowing: only such ways make an event. */
export const LITTLE = 0.3;
/** s, ways whose least is no further apart had it in one event. */
const SAME_MOMENT = 0.5;

/**
 * A motor near its limit takes control from several axes and ways at once: those that ran out in the same stretches, or
 * had little left and their least at the same moment, get one group. It is led by the one that was without control for
 * longest, or had the least left. The others stand alone.
 */
export function groupAuthority(found: readonly Ungrouped[]): AuthorityEvidence[] {
  const groups: Ungrouped[][] = [];
  for (const one of [...found].sort(byWeight)) {
    if (leastOf(one) >= LITTLE) continue;
    // With the leader, not with any member: chains of neighbours would join what has nothing in common.
    const group = groups.find(([leader]) => isSame(leader!, one));
    if (group === undefined) groups.push([one]);
    else group.push(one);
  }
  const joined = groups.filter(({ length }) => length > 1);
  return found.map((one) => {
    const index = joined.findIndex((group) => group.includes(one));
    return index < 0 ? one : { ...one, group: `authority-${index + 1}`, leads: joined[index]![0] === one };
  });
}

const leastOf = ({ measures }: Ungrouped) => measures.least!.value;

const byWeight = (a: Ungrouped, b: Ungrouped) =>
  secondsOf(b.stretches) - secondsOf(a.stretches) || leastOf(a) - leastOf(b);

const isSame = (a: Ungrouped, b: Ungrouped) =>
  Math.abs(a.leastAt - b.leastAt) <= SAME_MOMENT || isShared(a.stretches, b.stretches);

function isShared(a: readonly Span[], b: readonly Span[]): boolean {
  let shared = 0;
  for (let i = 0, k = 0; i < a.length && k < b.length; ) {
    shared += Math.max(0, Math.min(a[i]!.end, b[k]!.end) - Math.max(a[i]!.start, b[k]!.start));
    if (a[i]!.end < b[k]!.end) i++;
    else k++;
  }
  return shared >= SHARED * Math.min(secondsOf(a), secondsOf(b)) && shared > 0;
}

const secondsOf = (stretches: readonly Span[]) => stretches.reduce((sum, { start, end }) => sum + end - start, 0);
