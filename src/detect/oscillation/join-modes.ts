import type { Span } from "../../log/channel.ts";
import type { ModeMeasures } from "./mode-measures.ts";

/** One oscillation of an axis, in one piece or in several with pauses between them. */
export interface JoinedModes {
  /** the one that tells most: the largest */
  readonly main: ModeMeasures;
  /** the earliest, which has the onset */
  readonly first: ModeMeasures;
  /** the one that tells how the size changed: the first that grew, else the main one */
  readonly changing: ModeMeasures;
  readonly end: number;
  readonly cycles: number;
  readonly stretches: readonly Span[];
}

/** Frequencies within this ratio are one mode whose loop slows down as motors reach limits. */
const SAME_FREQUENCY = 1.2;
/** s without data, or with a smaller swing, that do not make two oscillations of one */
const LONGEST_PAUSE = 3;

/** Joins the largest mode of an axis with what it was before and after a pause. */
export function joinModes(modes: readonly ModeMeasures[], main: ModeMeasures): JoinedModes {
  const members = [main];
  const near = modes
    .filter((mode) => mode !== main && isSame(mode.frequency.value / main.frequency.value))
    .sort((a, b) => distance(a, main) - distance(b, main));
  for (const mode of near) {
    const isApart = members.every((member) => mode.end <= member.start || mode.start >= member.end);
    if (isApart && members.some((member) => distance(mode, member) <= LONGEST_PAUSE)) members.push(mode);
  }
  members.sort((a, b) => a.start - b.start);
  return {
    main,
    first: members[0]!,
    changing: members.find(({ trend }) => trend.trend === "growing") ?? main,
    end: members.at(-1)!.end,
    cycles: members.reduce((sum, { cycles }) => sum + cycles, 0),
    stretches: members.map(({ start, end }) => ({ start, end })),
  };
}

const isSame = (ratio: number) => ratio < SAME_FREQUENCY && ratio > 1 / SAME_FREQUENCY;

const distance = (a: Span, b: Span) => Math.max(0, a.start - b.end, b.start - a.end);
