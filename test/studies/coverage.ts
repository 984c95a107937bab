import { type RandomGenerator, randomGenerator } from "../../src/signal/index.ts";

/** An interval and the value that it should contain. */
export interface Claim {
  readonly low: number;
  readonly high: number;
  readonly truth: number;
}

/** What one trial claims, by name; undefined where the method declines. */
export type Trial = (random: RandomGenerator) => Record<string, Claim> | undefined;

export interface Coverage {
  readonly trials: number;
  readonly declined: number;
  /** Share of intervals that contain the truth. */
  readonly covered: number;
  /** Median width of the intervals. */
  readonly width: number;
}

/** Runs seeded trials and counts how often each interval contains the truth. */
export function coverageOf(trial: Trial, trials: number, seed = 1): Record<string, Coverage> {
  const random = randomGenerator(seed);
  const tallies = new Map<string, { inside: number; widths: number[] }>();
  let declined = 0;
  for (let i = 0; i < trials; i++) {
    const claims = trial(random);
    if (!claims) declined++;
    for (const [name, { low, high, truth }] of Object.entries(claims ?? {})) {
      const tally = tallies.get(name) ?? { inside: 0, widths: [] };
      if (low <= truth && truth <= high) tally.inside++;
      tally.widths.push(high - low);
      tallies.set(name, tally);
    }
  }
  return Object.fromEntries(
    [...tallies].map(([name, { inside, widths }]) => {
      const width = widths.toSorted((a, b) => a - b)[widths.length >> 1]!;
      return [name, { trials, declined, covered: inside / widths.length, width }];
    }),
  );
}

/** One line of a Markdown table for each interval. */
export function tableRows(title: string, coverage: Record<string, Coverage>): string {
  return Object.entries(coverage)
    .map(([name, { covered, width, declined }]) => {
      const share = `${(100 * covered).toFixed(1)} %`;
      return `| ${title} | ${name} | ${share} | ${width.toPrecision(3)} | ${declined} |`;
    })
    .join("\n");
}
