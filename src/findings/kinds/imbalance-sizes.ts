import type { Estimate, MotorEstimate, ThrustImbalanceEvidence } from "../../detect/index.ts";
import { numberWords } from "../../words/index.ts";

/** The motor that is asked for most. */
export const mostLoaded = ({ perMotor }: ThrustImbalanceEvidence): MotorEstimate =>
  [...perMotor.excess!].sort((a, b) => b.value - a.value)[0]!;

/** Those of a spin bias that carry more, then the others. */
export const spinSides = ({ value }: Estimate) =>
  value > 0 ? (["counter-clockwise", "clockwise"] as const) : (["clockwise", "counter-clockwise"] as const);

export const millimetres = (metres: number) => `${numberWords(1000 * Math.abs(metres), 2)} mm`;

/** The size of an estimate, its interval with it. */
export function sized(estimate: Estimate): Estimate {
  const { value, unit, low = value, high = value } = estimate;
  const [a, b] = [Math.abs(low), Math.abs(high)];
  return { value: Math.abs(value), unit, low: low * high > 0 ? Math.min(a, b) : 0, high: Math.max(a, b) };
}
