import type { Span } from "../log/channel.ts";
import type { Log } from "../log/log.ts";
import { quantile } from "../signal/index.ts";
import type { Phase, PhaseKind } from "./flight.ts";
import { cellTime, type Grid, gridOver } from "./grid.ts";
import { type Motion, readMotion } from "./motion.ts";
import { findPlateaus, numberSteps, type Plateau } from "./speed-steps.ts";

/** s, cell in which a phase is decided */
const STEP = 0.1;
/** s; a shorter phase joins its longer neighbour */
const SHORTEST_PHASE = 1;
/** rad/s (9 deg/s), smoothed over a second: faster than a pilot corrects heading on a straight leg (common practice) */
const TURN_RATE = 0.157;
/** s; over a longer pause in the rows nobody can say what the aircraft did */
const LONGEST_BRIDGED_GAP = 1;

type Airing = { kind: PhaseKind; from: number; to: number };

/**
 * Cuts a flight into phases: ground, climb, hover, cruise (with steady speed steps and legs), turn, descent, and
 * unknown where no channel tells or the log pauses.
 *
 * @param airborne spans in the air, in order
 * @returns phases in order, without overlap, covering `span`
 */
export function findPhases(log: Log, span: Span, airborne: readonly Span[]): Phase[] {
  const grid = gridOver(span, STEP);
  const motion = readMotion(log, grid);
  const kinds = kindOfEachCell(log, grid, motion);
  const pieces: { piece: Airing; start: number; end: number }[] = [];
  let reached = span.start;
  for (const flown of airborne) {
    const from = Math.round((flown.start - grid.start) / grid.step);
    const to = Math.min(grid.cells, Math.round((flown.end - grid.start) / grid.step));
    for (const piece of joinShort(runsOfKinds(kinds, from, to))) {
      const start = piece.from === from ? flown.start : grid.start + piece.from * grid.step;
      const end = piece.to === to ? flown.end : grid.start + piece.to * grid.step;
      if (start > reached + 1e-9) pieces.push(onGround(reached, start));
      pieces.push({ piece, start: Math.max(start, reached), end });
      reached = end;
    }
  }
  if (span.end > reached + 1e-9) pieces.push(onGround(reached, span.end));
  return withSteps(pieces, motion, grid);
}

const onGround = (start: number, end: number) => ({ piece: { kind: "ground" as const, from: 0, to: 0 }, start, end });

function kindOfEachCell(log: Log, grid: Grid, { speed, climb, turn }: Motion): PhaseKind[] {
  const climbing = climb === null ? Number.POSITIVE_INFINITY : clamp(0.25 * usual(climb), 0.1, 0.5);
  const moving = speed === null ? Number.POSITIVE_INFINITY : clamp(0.3 * usual(speed), 0.15, 1);
  const pauses = log.clock.gaps.filter(({ start, end }) => end - start > LONGEST_BRIDGED_GAP);
  return Array.from({ length: grid.cells }, (_, cell) => {
    const time = cellTime(grid, cell);
    if (pauses.some(({ start, end }) => time > start && time < end)) return "unknown";
    const rise = climb?.[cell] ?? Number.NaN;
    const pace = speed?.[cell] ?? Number.NaN;
    // Terrain following and gusts change height slowly against the way made good: that is cruise.
    if (Math.abs(rise) > climbing && !(pace > 3 * Math.abs(rise))) return rise > 0 ? "climb" : "descent";
    if (Number.isNaN(pace)) return "unknown";
    if (pace < moving) return "hover";
    return (turn?.[cell] ?? 0) > TURN_RATE ? "turn" : "cruise";
  });
}

/** 95th percentile of the size of what is known; 0 where nothing is. */
function usual(values: Float64Array): number {
  const known = values.filter((value) => !Number.isNaN(value)).map(Math.abs);
  return known.length === 0 ? 0 : quantile(known, 0.95);
}

const clamp = (value: number, low: number, high: number) => Math.min(high, Math.max(low, value));

function runsOfKinds(kinds: readonly PhaseKind[], from: number, to: number): Airing[] {
  const runs: Airing[] = [];
  for (let cell = from; cell < to; cell++) {
    const open = runs.at(-1);
    if (open !== undefined && open.kind === kinds[cell]) open.to = cell + 1;
    else runs.push({ kind: kinds[cell]!, from: cell, to: cell + 1 });
  }
  return runs;
}

/** Takes the shortest run that is too short into its longer neighbour, until none is left. */
function joinShort(runs: Airing[]): Airing[] {
  const shortest = Math.round(SHORTEST_PHASE / STEP);
  const length = (run: Airing | undefined) => (run === undefined ? -1 : run.to - run.from);
  const kept = runs.map((run) => ({ ...run }));
  while (kept.length > 1) {
    const index = kept.reduce((least, run, i) => (length(run) < length(kept[least]) ? i : least), 0);
    if (length(kept[index]) >= shortest) break;
    const neighbour = length(kept[index - 1]) >= length(kept[index + 1]) ? index - 1 : index + 1;
    kept[neighbour]!.from = Math.min(kept[neighbour]!.from, kept[index]!.from);
    kept[neighbour]!.to = Math.max(kept[neighbour]!.to, kept[index]!.to);
    kept.splice(index, 1);
    joinAlike(kept);
  }
  return kept;
}

function joinAlike(runs: Airing[]): void {
  for (let i = runs.length - 1; i > 0; i--) {
    if (runs[i]!.kind !== runs[i - 1]!.kind) continue;
    runs[i - 1]!.to = runs[i]!.to;
    runs.splice(i, 1);
  }
}

/** Splits cruise into its steady speed steps and the accelerations between, and numbers steps and legs. */
function withSteps(pieces: { piece: Airing; start: number; end: number }[], { speed }: Motion, grid: Grid): Phase[] {
  const plateausOf = new Map<Airing, Plateau[]>();
  if (speed !== null) {
    for (const { piece } of pieces) {
      if (piece.kind === "cruise") plateausOf.set(piece, findPlateaus(speed, grid, piece.from, piece.to));
    }
  }
  const all = [...plateausOf.values()].flat();
  const steps = new Map(numberSteps(all).map((step, i) => [all[i]!, step]));
  let leg = 0;
  return pieces.flatMap(({ piece, start, end }): Phase[] => {
    const plain = { kind: piece.kind, speed: null, step: null, leg: null };
    if (piece.kind !== "cruise") return [{ ...plain, start, end }];
    leg++;
    const phases: Phase[] = [];
    let reached = start;
    for (const plateau of plateausOf.get(piece) ?? []) {
      const from = Math.max(start, grid.start + plateau.from * grid.step);
      const to = Math.min(end, grid.start + plateau.to * grid.step);
      if (from > reached + 1e-9) phases.push({ ...plain, leg, start: reached, end: from });
      phases.push({ ...plain, leg, start: from, end: to, speed: plateau.speed, step: steps.get(plateau)! });
      reached = to;
    }
    if (end > reached + 1e-9) phases.push({ ...plain, leg, start: reached, end });
    return phases;
  });
}
