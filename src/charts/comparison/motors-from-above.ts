import type { Comparison } from "../../findings/comparison/index.ts";
import { percentWords } from "../../words/index.ts";
import type { Chart } from "../chart.ts";
import { drawFromAbove, motorList, placeFromAbove } from "../from-above.ts";
import type { Side } from "./sides.ts";

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
    const place = placeFromAbove(motor, places[motor - 1]!);
    return { ...place, excess: value / mean - 1, words: percentWords(value) };
  });
  const where = condition.kind === "cruise" ? `at ${condition.name}` : `in ${condition.kind}`;
  const title = `Motors ${side} the change, mean command ${where}.`;
  return drawFromAbove({
    id: `motors-${side}`,
    title,
    description: `${title} The aircraft from above, nose up, in percent of the command range. ${motorList(drawn)}.`,
    motors: drawn,
    gravity: [],
  });
}
