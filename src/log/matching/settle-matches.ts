import { InputError } from "../../input/index.ts";
import type { ResolvedChannel, ResolvedMap, ResolvedTime } from "../channels/resolve-map.ts";
import { conversionOf } from "../channels/units.ts";
import type { Question } from "../log.ts";
import type { Table } from "../table/describe-table.ts";
import type { Columns } from "../table/read-columns.ts";
import { shorten } from "../table/table-error.ts";
import { type ColumnFacts, columnFacts } from "./column-facts.ts";
import { doubtUnit } from "./doubt-unit.ts";
import { guessTimeUnit } from "./guess-time-unit.ts";
import { guessUnit, type UnitContext } from "./guess-unit.ts";
import type { Candidate, Candidates, ChannelCandidate } from "./match-columns.ts";
import { axisQuestions, motorQuestions, rivalQuestion, type UnitClaim, unitQuestions } from "./questions.ts";

/**
 * Looks at the numbers of the candidates: settles the time column, one column for each channel, and the units that the
 * names left open. Whatever was guessed becomes a question.
 *
 * @param columns holds every candidate's column
 * @param needsTime otherwise rows count as seconds where no column can be the time, and a question says so
 * @throws InputError where no column can be the time
 */
export function settleMatches(
  candidates: Candidates,
  columns: Columns,
  table: Table,
  { needsTime = true } = {},
): ResolvedMap {
  const factsOf = rememberFacts(columns);
  const time = settleTime(candidates.time, factsOf, table) ?? (needsTime ? timeless(table) : countedRows());
  const { winners, questions } = settleRivals(candidates.channels, factsOf);
  const context = contextOf(winners, factsOf);
  const claims: UnitClaim[] = [];
  const channels = winners.map((candidate): ResolvedChannel => {
    const { resolved, claim } = settleUnit(candidate, factsOf(candidate.position), context);
    if (claim !== null) claims.push(claim);
    return resolved;
  });
  return {
    time: time.resolved,
    // What is too unsure to compute with is still asked about.
    channels: channels.filter(({ confidence }) => confidence >= LEAST_CONFIDENCE),
    questions: [
      ...time.questions,
      ...unitQuestions(claims),
      ...axisQuestions(channels),
      ...motorQuestions(channels, candidates.isFromZero),
      ...questions,
    ],
  };
}

/** Below this a match of words and unit together is left out. */
const LEAST_CONFIDENCE = 0.25;

type FactsOf = (position: number) => ColumnFacts;

function rememberFacts({ numbers }: Columns): FactsOf {
  const known = new Map<number, ColumnFacts>();
  return (position) => {
    const facts = known.get(position) ?? columnFacts(numbers.get(position) ?? new Float64Array(0));
    known.set(position, facts);
    return facts;
  };
}

function settleTime(candidates: readonly Candidate[], factsOf: FactsOf, table: Table) {
  const rated = candidates
    .map((candidate) => ({ candidate, facts: factsOf(candidate.position) }))
    .filter(({ facts }) => facts.count > 0)
    // A column called time that does not rise is a duration or a time of something else.
    .map((one) => ({ ...one, score: one.candidate.confidence * (one.facts.rising >= 0.5 ? 1 : 0.2) }))
    .sort((a, b) => b.score - a.score);
  const best = rated[0];
  if (best === undefined) return null;
  const { position, column, unit } = best.candidate;
  const questions: Question[] = [];
  if (table.columns[position]!.kind === "timestamp") {
    return { resolved: { position, column, unit: "date and time", secondsPerUnit: 1e-6 } as ResolvedTime, questions };
  }
  const guessed = unit === null ? guessTimeUnit(best.facts) : null;
  if (guessed !== null) {
    const text = `Is "${shorten(column)}" in ${guessed.unit}, which makes ${significant(guessed.rate)} rows a second?`;
    questions.push({ channel: "time", column, text });
  }
  const settled = unit ?? guessed!.unit;
  const secondsPerUnit = conversionOf(settled, "time")!.factor;
  return { resolved: { position, column, unit: settled, secondsPerUnit } as ResolvedTime, questions };
}

function timeless({ file }: Table): never {
  throw new InputError(
    { file },
    "no column is named for time",
    "name it in a channel map, time: { column: NAME, unit: s }, or give time: { rate: HZ }",
  );
}

function countedRows() {
  const text = "Which column is the time? Until a channel map says so, each row counts as one second.";
  return { resolved: { rate: 1 } as ResolvedTime, questions: [{ channel: "time", column: "", text }] };
}

/** Of several columns for one channel the surer one wins, among equals the first; empty columns lose. */
function settleRivals(candidates: readonly ChannelCandidate[], factsOf: FactsOf) {
  const byChannel = new Map<string, ChannelCandidate[]>();
  for (const candidate of candidates) {
    const { name } = candidate.kind;
    byChannel.set(name, [...(byChannel.get(name) ?? []), candidate]);
  }
  const strength = ({ kind, position, confidence }: ChannelCandidate) =>
    kind.dimension === "text" || factsOf(position).count > 0 ? confidence : 0;
  const winners: ChannelCandidate[] = [];
  const questions: Question[] = [];
  for (const rivals of byChannel.values()) {
    const [winner, ...others] = rivals.sort((a, b) => strength(b) - strength(a));
    winners.push(winner!);
    if (others.length > 0) questions.push(rivalQuestion(winner!, others));
  }
  return { winners, questions };
}

/** Whole numbers that reach this far are no metres of a multirotor's short flight. */
const LARGE_FOR_METRES = 40;

function contextOf(candidates: readonly ChannelCandidate[], factsOf: FactsOf): UnitContext {
  const open = candidates.filter(({ unit }) => unit === null);
  const moving = open.filter(({ kind }) => kind.dimension === "length" || kind.dimension === "speed");
  const facts = moving.map(({ position }) => factsOf(position)).filter(({ count }) => count > 0);
  const vertical = candidates.find(({ kind }) => kind.name === "acceleration.z");
  const commands = open.filter(({ kind }) => kind.dimension === "command").map(({ position }) => factsOf(position));
  return {
    isMillimetric: facts.every(({ isWhole }) => isWhole) && facts.some(({ reach }) => reach > LARGE_FOR_METRES),
    gravity: vertical === undefined ? null : factsOf(vertical.position).usual,
    commands:
      commands.length === 0
        ? null
        : { min: Math.min(...commands.map(({ min }) => min)), max: Math.max(...commands.map(({ max }) => max)) },
  };
}

function settleUnit(
  candidate: ChannelCandidate,
  facts: ColumnFacts,
  context: UnitContext,
): { resolved: ResolvedChannel; claim: UnitClaim | null } {
  const { kind, position, column, sign, confidence, unit: stated, words, why } = candidate;
  const settle = (unit: string, sure: number, reason: string, scale = 1) => ({
    kind,
    position,
    source: { column, unit, sign, scale, offset: 0 },
    confidence: confidence * sure,
    why: reason,
  });
  if (kind.dimension === "text") return { resolved: settle("", 1, why), claim: null };
  const doubt = stated === null ? null : doubtUnit(kind, stated, facts.reach);
  if (stated !== null && doubt === null) {
    return { resolved: settle(stated, 1, `${why}, its name states ${stated}`), claim: null };
  }
  const guessed = guessUnit(kind, words, facts, context) ?? { unit: kind.unit, confidence: 0.5, scale: 1 };
  const { unit, scale } = guessed;
  const claim = {
    channel: kind.name,
    dimension: kind.dimension,
    column,
    unit,
    scale,
    reach: facts.reach,
    stated,
    doubt,
  };
  const reason =
    doubt === null
      ? `${why}; ${unit} because it reaches ${significant(facts.reach)}`
      : `${why}; not ${stated} as its name states, because it reaches ${significant(facts.reach)}, ${doubt}`;
  return { resolved: settle(unit, guessed.confidence * (doubt === null ? 1 : 0.7), reason, scale), claim };
}

const significant = (value: number) => String(Number(value.toPrecision(4)));
