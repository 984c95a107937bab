import type { Evidence } from "../detect/index.ts";
import type { Finding } from "./finding.ts";
import type { FindingContext, FindingKind } from "./kind.ts";
import { FINDING_KINDS } from "./kinds/index.ts";

/**
 * Turns evidence into findings: first those that ask for something, then the notes, each in order of time, so that no
 * list begins with what is in order. `charts` is left empty: pictures are drawn from findings.
 *
 * @throws Error if a kind of evidence has no words, which is a bug
 */
export function makeFindings(context: FindingContext): Finding[] {
  const counts = new Map<string, number>();
  const made = [...context.evidence]
    .sort((a, b) => a.start - b.start || a.end - b.end)
    .map((evidence) => {
      const kind = FINDING_KINDS.get(evidence.kind) as FindingKind<Evidence> | undefined;
      if (kind === undefined) throw new Error(`no words for evidence of kind ${evidence.kind}`);
      const stem = stemOf(evidence);
      const count = (counts.get(stem) ?? 0) + 1;
      counts.set(stem, count);
      return makeFinding(kind, evidence, context, `${stem}-${count}`);
    });
  const isNote = ({ severity }: Finding) => severity === "note";
  return [...made.filter((finding) => !isNote(finding)), ...made.filter(isNote)];
}

function makeFinding(kind: FindingKind<Evidence>, evidence: Evidence, context: FindingContext, id: string): Finding {
  const severity = kind.level(evidence, context);
  const words = kind.words(evidence, context, severity);
  const { start, end, axis, loop, motor, channel, stretches, confidence } = evidence;
  return {
    id,
    kind: kind.kind,
    severity,
    confidence,
    start,
    end,
    ...(axis !== undefined && { axis }),
    ...(loop !== undefined && { loop }),
    ...(motor !== undefined && { motor }),
    ...(channel !== undefined && { channel }),
    ...kind.top?.(evidence),
    ...(stretches !== undefined && { stretches: joinNearest(stretches) }),
    summary: words.summary,
    meaning: words.meaning,
    cautions: [...words.cautions],
    next: [...words.next],
    measures: { ...evidence.measures, ...evidence.perMotor } as Finding["measures"],
    method: kind.guide.method,
    sources: [...kind.guide.sources],
    charts: [],
  };
}

/** A motor that chatters at its limit has thousands of episodes: more than this no reader and no chart can tell apart. */
const MOST_STRETCHES = 150;

/** At most so many stretches: where there are more, those with the shortest pauses between them are told as one. */
function joinNearest(stretches: readonly { start: number; end: number }[]): { start: number; end: number }[] {
  const pauses = stretches.slice(1).map(({ start }, i) => start - stretches[i]!.end);
  const shortest = [...pauses].sort((a, b) => b - a)[MOST_STRETCHES - 2] ?? Number.NEGATIVE_INFINITY;
  const joined: { start: number; end: number }[] = [];
  for (const [i, { start, end }] of stretches.entries()) {
    const open = joined.at(-1);
    if (open !== undefined && (pauses[i - 1]! < shortest || joined.length === MOST_STRETCHES)) open.end = end;
    else joined.push({ start, end });
  }
  return joined;
}

function stemOf({ kind, axis, loop, motor, channel }: Evidence): string {
  return [kind, axis, loop, motor, channel]
    .filter((part) => part !== undefined)
    .map((part) =>
      String(part)
        .toLowerCase()
        .replace(/[^a-z0-9]+/g, "-"),
    )
    .join("-");
}
