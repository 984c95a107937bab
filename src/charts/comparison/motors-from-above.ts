import type { Comparison } from "../../findings/comparison/index.ts";
import { percentWords } from "../../words/index.ts";
import type { Chart } from "../chart.ts";
import { fromAboveLayers } from "../from-above.ts";
import { staticChart } from "../time-chart.ts";
import type { Side } from "./sides.ts";

const SIZE = 300;

/** As read from the aircraft file. */
interface Place {
  readonly x: number;
  readonly y: number;
  readonly spin: string;
}

/**
 * The aircraft from above, nose up, with the mean command of each motor in one flight, larger and warmer where it lies
 * above the mean of all: at the fastest step that both flew, else in hover.
 * @returns undefined without an aircraft file or motor commands
 */
export function motorsFromAbove(comparison: Comparison, side: Side): Chart | undefined {
  const places = comparison.aircraft.motors as readonly Place[] | undefined;
  const rows = (comparison.tables.find(({ id }) => id === "motors")?.rows ?? []).filter(
    ({ quantity, before, after }) => quantity === "mean-command" && before !== undefined && after !== undefined,
  );
  const condition = comparison.conditions.filter(({ id }) => rows.some((row) => row.condition === id)).at(-1);
  if (places === undefined || condition === undefined) return undefined;
  const levels = rows
    .filter((row) => row.condition === condition.id)
    .map((row) => ({ motor: row.motor!, value: row[side]!.value }));
  const mean = levels.reduce((sum, { value }) => sum + value, 0) / levels.length;
  const drawn = levels.map(({ motor, value }) => {
    const { x, y, spin } = places[motor - 1]!;
    return {
      right: y,
      forward: x,
      motor: `${motor} ${spin === "cw" ? "↻" : "↺"}`,
      excess: value / mean - 1,
      words: percentWords(value),
    };
  });
  const reach = 1.45 * Math.max(...drawn.map(({ right, forward }) => Math.max(Math.abs(right), Math.abs(forward))));
  const where = condition.kind === "cruise" ? `at ${condition.name}` : `in ${condition.kind}`;
  const title = `Motors ${side} the change, mean command ${where}.`;
  return staticChart({
    id: `motors-${side}`,
    title,
    description: `${title} The aircraft from above, nose up, in percent of the command range. ${drawn.map(({ motor, words }) => `Motor ${motor}: ${words}`).join("; ")}.`,
    height: SIZE,
    width: SIZE + 60,
    datasets: {
      motors: drawn,
      arms: drawn.flatMap(({ motor, right, forward }) => [
        { motor, right: 0, forward: 0 },
        { motor, right, forward },
      ]),
      gravity: [],
    },
    layers: fromAboveLayers(reach),
  });
}
