import { type ChannelKind, channelKindOf } from "../channels/channel-names.ts";
import { conversionOf } from "../channels/units.ts";
import type { Table } from "../table/describe-table.ts";
import { channelOfWords } from "./channel-of-words.ts";
import { wordsOf } from "./words-of.ts";

/** A column whose name says what it may be, before its numbers are looked at. */
export interface Candidate {
  readonly position: number;
  readonly column: string;
  readonly words: readonly string[];
  readonly sign: 1 | -1;
  /** unit that the name states and that fits; null where it states none */
  readonly unit: string | null;
  readonly confidence: number;
  readonly why: string;
}

export interface ChannelCandidate extends Candidate {
  readonly kind: ChannelKind;
}

export interface Candidates {
  readonly time: readonly Candidate[];
  readonly channels: readonly ChannelCandidate[];
  /** the log counts its motors from 0 */
  readonly isFromZero: boolean;
}

/** Below this the words are no more than an echo. */
const LEAST_CONFIDENCE = 0.3;

/** Finds out from the words in the column names alone which column may be which channel, and in what unit. */
export function matchColumns({ columns }: Table): Candidates {
  const found = columns.flatMap((column) => {
    const parts = wordsOf(column.name);
    const match = channelOfWords(parts);
    if (match === null || match.confidence < LEAST_CONFIDENCE) return [];
    return [{ ...match, parts, position: column.position, column: column.name, kind: column.kind }];
  });
  const isFromZero = found.some(({ channel }) => channel.startsWith("motor.0."));
  const time: Candidate[] = [];
  const channels: ChannelCandidate[] = [];
  for (const { channel, parts, position, column, kind: columnKind, sign, confidence, why } of found) {
    const isTime = channel === "time";
    const kind = isTime ? null : channelKindOf(isFromZero ? countedFromOne(channel) : channel);
    if ((!isTime && kind === null) || (columnKind === "timestamp" && !isTime)) continue;
    if (columnKind === "text" && kind?.dimension !== "text") continue;
    const dimension = kind?.dimension ?? "time";
    const unit = parts.units.find((one) => conversionOf(one, dimension) !== null) ?? null;
    const isOdd = unit === null && parts.units.length > 0;
    const candidate = { position, column, words: parts.words, sign, unit, why };
    const sure = isOdd ? confidence * 0.5 : confidence;
    if (kind === null) time.push({ ...candidate, confidence: sure });
    else channels.push({ ...candidate, confidence: sure, kind });
  }
  for (const { position, name, kind } of columns) {
    const isNew = kind === "timestamp" && !time.some((one) => one.position === position);
    if (isNew)
      time.push({ position, column: name, words: [], sign: 1, unit: null, confidence: 0.6, why: "it holds dates" });
  }
  return { time, channels, isFromZero };
}

const countedFromOne = (channel: string) =>
  channel.replace(/^motor\.(\d+)/, (_, number) => `motor.${Number(number) + 1}`);
