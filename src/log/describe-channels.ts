import { buildLog } from "./build-log.ts";
import type { Channel } from "./channel.ts";
import type { ColumnMatch, Log } from "./log.ts";
import { columnFacts } from "./matching/column-facts.ts";
import { type OpenedLog, type OpenOptions, openLog } from "./open-log.ts";
import type { ColumnKind, Table } from "./table/describe-table.ts";

/** What a log's columns are and how well they were sampled. */
export interface ChannelsReport {
  readonly log: Log;
  /** every column of the table, in its order */
  readonly columns: readonly ColumnReport[];
}

export interface ColumnReport {
  /** place in the table, counted from 0 */
  readonly position: number;
  /** exactly as written */
  readonly name: string;
  readonly kind: ColumnKind;
  readonly isTime: boolean;
  /** the channels that are made of it; most columns make one or none */
  readonly matches: readonly ColumnMatch[];
  /** cells with a value */
  readonly filled: number;
  /** smallest and largest number as written, without unit or sign of the match; null where there is none */
  readonly min: number | null;
  readonly max: number | null;
  /** sampling of the channel; null for a column that makes none */
  readonly sampling: Pick<Channel, "rate" | "coverage" | "longestGap" | "gaps" | "stuck"> | null;
}

/**
 * Looks at all columns of a log, also those that are no channel, for a person who writes or mends a channel map.
 *
 * @throws InputError as `loadLog` does, but not for columns without any value, nor where no name says what a column is
 */
export async function describeChannels(file: string, options: OpenOptions = {}): Promise<ChannelsReport> {
  const opened = await openLog(file, options, { alsoRead: numberColumns });
  const log = buildLog(opened, { refusesEmpty: false });
  return { log, columns: opened.table.columns.map(({ position }) => reportColumn(position, opened, log)) };
}

/** Those that look like numbers. */
const numberColumns = ({ columns }: Table) =>
  columns.filter(({ kind }) => kind !== "text").map(({ position }) => position);

function reportColumn(position: number, { table, columns, resolved }: OpenedLog, log: Log): ColumnReport {
  const { name, kind } = table.columns[position]!;
  const cells = columns.numbers.get(position);
  const facts = cells === undefined ? null : columnFacts(cells);
  const texts = columns.texts.get(position);
  const isFilled = facts !== null && facts.count > 0;
  const names = resolved.channels.filter((one) => one.position === position).map((one) => one.kind.name);
  const channel = names.map((one) => log.channels.get(one)).find((one) => one !== undefined);
  return {
    position,
    name,
    kind,
    isTime: "position" in resolved.time && resolved.time.position === position,
    matches: log.mapping.matches.filter((match) => names.includes(match.channel)),
    filled: facts?.count ?? texts?.filter((text) => text !== null).length ?? 0,
    min: isFilled ? facts.min : null,
    max: isFilled ? facts.max : null,
    sampling: channel === undefined ? null : samplingOf(channel),
  };
}

function samplingOf({ rate, coverage, longestGap, gaps, stuck }: Channel): ColumnReport["sampling"] {
  return { rate, coverage, longestGap, gaps, stuck };
}
