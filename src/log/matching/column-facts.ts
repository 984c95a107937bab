/** What a column's numbers look like, whatever they mean. */
export interface ColumnFacts {
  /** cells with a finite value */
  readonly count: number;
  readonly min: number;
  readonly max: number;
  /** largest absolute value */
  readonly reach: number;
  /** median of the absolute values, from at most 20,000 cells */
  readonly usual: number;
  /** all values are whole numbers */
  readonly isWhole: boolean;
  /** median step between rows that follow one another, from at most 20,000 of them */
  readonly step: number;
  /** share of the steps that go up */
  readonly rising: number;
}

export function columnFacts(cells: Float64Array): ColumnFacts {
  let count = 0;
  let min = Number.POSITIVE_INFINITY;
  let max = Number.NEGATIVE_INFINITY;
  let isWhole = true;
  for (const cell of cells) {
    if (!Number.isFinite(cell)) continue;
    count++;
    if (cell < min) min = cell;
    if (cell > max) max = cell;
    if (isWhole && !Number.isInteger(cell)) isWhole = false;
  }
  const stride = Math.max(1, Math.floor(cells.length / 20_000));
  const sizes: number[] = [];
  const steps: number[] = [];
  for (let at = 0; at < cells.length; at += stride) {
    if (Number.isFinite(cells[at]!)) sizes.push(Math.abs(cells[at]!));
    const step = at === 0 ? Number.NaN : cells[at]! - cells[at - 1]!;
    if (Number.isFinite(step)) steps.push(step);
  }
  return {
    count,
    min,
    max,
    reach: count === 0 ? 0 : Math.max(Math.abs(min), Math.abs(max)),
    usual: median(sizes),
    isWhole,
    step: median(steps),
    rising: steps.length === 0 ? 0 : steps.filter((step) => step > 0).length / steps.length,
  };
}

function median(values: number[]): number {
  values.sort((a, b) => a - b);
  return values[values.length >> 1] ?? 0;
}
