import type { Finding } from "../findings/finding.ts";
import { percentWords } from "../words/index.ts";
import type { Chart } from "./chart.ts";
import type { Drawing } from "./drawing.ts";
import { type LoadSeries, loadLanes } from "./load-lanes.ts";
import { laneName } from "./motor-words.ts";
import { staticChart } from "./time-chart.ts";

/**
 * What each motor carries beyond the mean of all, in the baseline flight and in this one.
 * @returns undefined where the finding was made without a baseline
 */
export function chartLoadBeforeAfter(drawing: Drawing, finding: Finding): Chart | undefined {
  const before = seriesOf(finding, "demand-before", "baseline flight");
  const now = seriesOf(finding, "demand-now", "this flight");
  if (before === undefined || now === undefined) return undefined;
  const names = now.bars.map(({ motor }) => laneName(drawing.flight, motor));
  const most = now.bars
    .map(({ motor, value }, i) => ({ motor, from: before.bars[i]!.value, to: value }))
    .sort((a, b) => Math.abs(b.to - b.from) - Math.abs(a.to - a.from))[0]!;
  const title = `Motor ${most.motor} changed most: from ${percentWords(most.from)} to ${percentWords(most.to)} beyond the mean of all motors.`;
  return staticChart({
    id: `${finding.id}-before-after`,
    title,
    description: `${title} ${now.bars.map(({ motor, value }, i) => `Motor ${motor}: ${percentWords(before.bars[i]!.value)} before, ${percentWords(value)} now`).join("; ")}.`,
    ...loadLanes([before, now], names),
  });
}

function seriesOf({ measures }: Finding, name: string, label: string): LoadSeries | undefined {
  const values = measures[name];
  if (!Array.isArray(values)) return undefined;
  return { label, bars: values.map(({ motor, value, low = value, high = value }) => ({ motor, value, low, high })) };
}
