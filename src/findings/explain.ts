import type { KindGuide } from "./kind.ts";
import { FINDING_KINDS } from "./kinds/index.ts";

/** What a kind of finding means, how it is computed, its limits, sources and cautions; undefined for an unknown kind. */
export function explainKind(kind: string): KindGuide | undefined {
  return FINDING_KINDS.get(kind)?.guide;
}

/** Names of all kinds of findings, in the order in which they are examined. */
export function explainableKinds(): string[] {
  return [...FINDING_KINDS.keys()];
}
