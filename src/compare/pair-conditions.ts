import { speedTolerance } from "../flight/index.ts";
import type { FlownCondition } from "./replicates.ts";

/** One condition that both flights flew. */
export interface ConditionPair {
  /** `hover`, `flight`, `step-1`, ... by rising speed */
  readonly id: string;
  readonly before: FlownCondition;
  readonly after: FlownCondition;
}

/** What only one of the flights flew. */
export interface Unpaired {
  readonly flight: "before" | "after";
  readonly condition: FlownCondition;
}

/** Matches hover with hover and each speed with the nearest one of the other flight. */
export function pairConditions(
  before: readonly FlownCondition[],
  after: readonly FlownCondition[],
): { readonly pairs: readonly ConditionPair[]; readonly unpaired: readonly Unpaired[] } {
  const pairs: ConditionPair[] = [];
  const free = new Set(after);
  const unpaired: Unpaired[] = [];
  let step = 0;
  for (const condition of before) {
    const match = nearest(condition, [...free]);
    if (match === undefined) {
      unpaired.push({ flight: "before", condition });
      continue;
    }
    free.delete(match);
    if (condition.kind === "cruise") step++;
    const id = condition.kind === "cruise" ? `step-${step}` : condition.kind;
    pairs.push({ id, before: condition, after: match });
  }
  return { pairs, unpaired: [...unpaired, ...[...free].map((condition) => ({ flight: "after" as const, condition }))] };
}

function nearest(condition: FlownCondition, others: readonly FlownCondition[]): FlownCondition | undefined {
  const alike = others.filter(({ kind }) => kind === condition.kind);
  if (condition.kind !== "cruise") return alike[0];
  const speed = condition.speed;
  if (speed === null) return undefined;
  const apart = (other: FlownCondition) => Math.abs((other.speed ?? Number.POSITIVE_INFINITY) - speed);
  return alike.filter((other) => apart(other) <= speedTolerance(speed)).sort((a, b) => apart(a) - apart(b))[0];
}
