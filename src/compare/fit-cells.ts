import { leastSquaresOrNull, type Matrix, matrixOfColumns, pseudoInverse } from "../signal/index.ts";

/** One measured value: of which flight, of which condition, at which speed through the air. */
export interface Observation {
  readonly side: "before" | "after";
  /** index of the condition among those compared */
  readonly cell: number;
  /** the quantity, or its logarithm */
  readonly y: number;
  /** m/s through the air; null where unknown */
  readonly air: number | null;
  readonly direction: 1 | -1 | null;
}

/** What carries the effect of the wind in a fit. */
export type WindTerm = "air-curve" | "air-slope" | "direction" | "none";

/** A linear fit from which levels and differences are read as contrasts. */
export interface CellFit {
  readonly term: WindTerm;
  readonly residuals: Float64Array;
  /** value and variance (without the flight-to-flight term) of a condition's level, at its own speed in still air */
  level(side: Observation["side"], cell: number): Contrast;
  /** after less before, of one condition or of the mean of all */
  difference(cell: number | "all"): Contrast;
}

export interface Contrast {
  readonly value: number;
  readonly variance: number;
  /** of the variance; after Satterthwaite where the flights have each their own */
  readonly degreesOfFreedom: number;
}

/** m/s: a smaller usual difference between speed through the air and over ground moves nothing that could be told */
const LEAST_WIND = 0.3;
/** Powers of speed in the curve: power against speed falls, then rises with the cube. */
const MOST_POWERS = 3;
/** Observations left over: fewer do not tell their own spread (four replicates of one mean have three). */
export const LEAST_FREEDOM = 3;

/**
 * Fits the level of every condition in both flights, wind taken out as well as the data allows:
 *
 * - `air-curve`: one smooth curve over speed through the air that both flights share (a polynomial), and a difference of
 *   its own at each condition. Averaging legs up and down removes only what is odd in the wind; a curve also removes the
 *   rest, because the quantity is read off at the speed of the step in still air.
 * - `air-slope`: the same with a straight slope, about the level of each condition.
 * - `direction`: legs out against legs back, where only the direction of a leg is known.
 *
 * @param speeds m/s of each condition, null in hover
 * @param wanted the strongest term to try; weaker ones follow where it cannot be had
 * @returns null where fewer than three degrees of freedom are left
 * @see Satterthwaite 1946, Biometrics Bulletin 2(6):110-114
 */
export function fitCells(
  observations: readonly Observation[],
  speeds: readonly (number | null)[],
  wanted: "air-curve" | "air-slope" | "none",
): CellFit | null {
  for (const term of termsToTry(observations, speeds, wanted)) {
    const fit = tryFit(observations, speeds, term);
    if (fit !== null) return fit;
  }
  return null;
}

function termsToTry(
  observations: readonly Observation[],
  speeds: readonly (number | null)[],
  wanted: "air-curve" | "air-slope" | "none",
): WindTerm[] {
  if (wanted === "none" || speeds.some((speed) => speed === null)) return ["none"];
  const isAirKnown = observations.every(({ air }) => air !== null);
  if (isAirKnown) {
    const squares = observations.reduce((sum, { air, cell }) => sum + (air! - speeds[cell]!) ** 2, 0);
    if (Math.sqrt(squares / observations.length) < LEAST_WIND) return ["none"];
    return wanted === "air-curve" && speeds.length > 1 ? ["air-curve", "air-slope", "none"] : ["air-slope", "none"];
  }
  return observations.every(({ direction }) => direction !== null) ? ["direction", "none"] : ["none"];
}

function tryFit(
  observations: readonly Observation[],
  speeds: readonly (number | null)[],
  term: WindTerm,
): CellFit | null {
  const cells = speeds.length;
  const powers = term === "air-curve" ? Math.min(MOST_POWERS, cells) : 0;
  // m/s, so that powers of the scaled speed stay near one
  const scale = Math.max(1, ...speeds.map((speed) => speed ?? 0));
  const curve = (air: number) => Array.from({ length: powers + 1 }, (_, k) => (air / scale) ** k);
  const inCell = (cell: number) => Array.from({ length: cells }, (_, k) => (k === cell ? 1 : 0));
  const zeros = new Array<number>(cells).fill(0);
  // Columns: the shared part (curve, or a level before of each condition), a difference of each, what the wind adds.
  const shared = (cell: number, air: number) => (term === "air-curve" ? curve(air) : inCell(cell));
  const extra = ({ side, cell, air, direction }: Observation): number[] => {
    if (term === "air-slope") return [air! - speeds[cell]!];
    if (term === "direction") return [side === "before" ? direction! : 0, side === "after" ? direction! : 0];
    return [];
  };
  const rows = observations.map((one) => [
    ...shared(one.cell, one.air ?? 0),
    ...(one.side === "after" ? inCell(one.cell) : zeros),
    ...extra(one),
  ]);
  const columns = rows[0]?.length ?? 0;
  if (observations.length - columns < LEAST_FREEDOM) return null;
  const design = matrixOfColumns(Array.from({ length: columns }, (_, j) => Float64Array.from(rows, (row) => row[j]!)));
  const y = Float64Array.from(observations, (one) => one.y);
  const solver = solverOf(design);
  if (solver === null) return null;
  const spread = spreadOf(observations, design, solver, y);
  if (spread === null) return null;
  const contrast = (weights: readonly number[]): Contrast => {
    // As a linear function of the observations: its variance is what each flight's spread puts into it.
    const parts = { before: 0, after: 0 };
    let value = 0;
    for (const [i, { side }] of observations.entries()) {
      let weight = 0;
      for (const [j, a] of weights.entries()) weight += a * solver.data[j * observations.length + i]!;
      value += weight * y[i]!;
      parts[side] += weight * weight * spread.variance[side];
    }
    const variance = parts.before + parts.after;
    const freedom = spread.isPooled
      ? spread.freedom.before
      : variance ** 2 / (parts.before ** 2 / spread.freedom.before + parts.after ** 2 / spread.freedom.after);
    return { value, variance, degreesOfFreedom: variance > 0 ? freedom : spread.freedom.before };
  };
  const padded = (left: readonly number[], right: readonly number[]) => {
    const weights = [...left, ...right];
    return [...weights, ...new Array<number>(columns - weights.length).fill(0)];
  };
  return {
    term,
    residuals: spread.residuals,
    level: (side, cell) => contrast(padded(shared(cell, speeds[cell] ?? 0), side === "after" ? inCell(cell) : zeros)),
    difference: (cell) =>
      contrast(
        padded(
          shared(0, 0).map(() => 0),
          cell === "all" ? zeros.map(() => 1 / cells) : inCell(cell),
        ),
      ),
  };
}

/** Coefficients = solver x observations; null where the columns are not independent. */
function solverOf(design: Matrix): Matrix | null {
  return leastSquaresOrNull(design, new Float64Array(design.rows)) && pseudoInverse(design);
}

/**
 * Variance of one observation of each flight from its own residuals, because a change may make legs more unlike each
 * other; one variance for both where a flight has too few. A flight's degrees of freedom are its observations less what
 * the fit took of them.
 */
function spreadOf(observations: readonly Observation[], design: Matrix, solver: Matrix, y: Float64Array) {
  const { rows, columns, data } = design;
  const residuals = new Float64Array(rows);
  const squares = { before: 0, after: 0 };
  const freedom = { before: 0, after: 0 };
  for (let i = 0; i < rows; i++) {
    let [fitted, own] = [0, 0];
    for (let k = 0; k < rows; k++) {
      let hat = 0;
      for (let j = 0; j < columns; j++) hat += data[i * columns + j]! * solver.data[j * rows + k]!;
      fitted += hat * y[k]!;
      if (k === i) own = hat;
    }
    residuals[i] = y[i]! - fitted;
    const { side } = observations[i]!;
    squares[side] += residuals[i]! ** 2;
    freedom[side] += 1 - own;
  }
  const total = freedom.before + freedom.after;
  if (total < LEAST_FREEDOM - 1e-9) return null;
  const isPooled = Math.min(freedom.before, freedom.after) < LEAST_FREEDOM - 1e-9;
  if (isPooled) {
    const variance = (squares.before + squares.after) / total;
    return {
      residuals,
      isPooled,
      variance: { before: variance, after: variance },
      freedom: { before: total, after: total },
    };
  }
  const variance = { before: squares.before / freedom.before, after: squares.after / freedom.after };
  return { residuals, isPooled, variance, freedom };
}
