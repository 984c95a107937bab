import type { Evidence, EvidenceBase } from "../detect/index.ts";
import type { AlertLevel, Finding } from "./finding.ts";

/** What the words of one finding may lean on besides its own evidence. */
export interface FindingContext {
  /** `motor 3 (rear right)` */
  motorName(motor: number): string;
  /** `cruise at 9.8 m/s (step 3, leg 2)`, `climb` */
  phaseName(phase: { kind: string; speed: number | null; step: number | null; leg: number | null }): string;
  /** all evidence of this diagnosis, for levels that depend on what else was found */
  readonly evidence: readonly Evidence[];
}

/** What the crew reads of one piece of evidence. */
export interface FindingWords {
  /** what happened, with numbers, one or two sentences */
  readonly summary: string;
  /** why it matters */
  readonly meaning: string;
  /** what not to do, what to mind */
  readonly cautions: readonly string[];
  /** what to check next, in order */
  readonly next: readonly string[];
}

/** How to read one kind of finding, for people who ask (`explain`). */
export interface KindGuide {
  readonly title: string;
  /** what it means, for a reader who meets it the first time */
  readonly meaning: string;
  /** how it is computed */
  readonly method: string;
  /** what it cannot tell */
  readonly limits: string;
  readonly sources: readonly string[];
  readonly cautions: readonly string[];
}

/** Everything that turns evidence of one kind into findings: level, words, guide. */
export interface FindingKind<E extends EvidenceBase = EvidenceBase> {
  readonly kind: E["kind"];
  readonly guide: KindGuide;
  level(evidence: E, context: FindingContext): AlertLevel;
  words(evidence: E, context: FindingContext, level: AlertLevel): FindingWords;
  /** fields at the top of the finding beyond those that every evidence has */
  top?(evidence: E): Partial<Finding>;
}
