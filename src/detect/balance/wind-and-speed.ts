import { studentTQuantile } from "../../signal/index.ts";
import type { Estimate } from "../evidence.ts";
import { type Layout, loadCentre } from "./load-shares.ts";
import { type SteadyTrims, type Trim, withoutWind } from "./steady-trims.ts";

/**
 * What of the load's place comes from moving through the air: `speed-shift-…`, from hover to the fastest speed step,
 * wind averaged out (drag, a boom, a wing); and `wind-shift-…`, half the difference between legs out and back of the
 * step that shows most of it (the wind, or a lean that the heading brings).
 */
export function windAndSpeed({ layout, trims }: SteadyTrims): Record<string, Estimate> {
  const calm = withoutWind(trims);
  const hover = calm.find(({ condition }) => condition.kind === "hover");
  const fastest = calm.filter(({ condition }) => condition.kind === "cruise").at(-1);
  const pairs = trims
    .filter(({ condition }) => condition.direction === "out")
    .flatMap((out) =>
      trims
        .filter(({ condition: c }) => c.direction === "back" && c.step === out.condition.step)
        .map((back) => ({ out, back })),
    );
  const size = ({ out, back }: (typeof pairs)[number]) => {
    const [a, b] = [loadCentre(layout, out.shares), loadCentre(layout, back.shares)];
    return Math.hypot(a.forward - b.forward, a.right - b.right);
  };
  const windiest = pairs.sort((a, b) => size(b) - size(a))[0];
  return {
    ...(hover && fastest && centreChange(layout, hover, fastest, "speed-shift", 1)),
    ...(windiest && centreChange(layout, windiest.back, windiest.out, "wind-shift", 0.5)),
  };
}

function centreChange(layout: Layout, from: Trim, to: Trim, name: string, factor: number): Record<string, Estimate> {
  const half = studentTQuantile(0.975, Math.min(from.degreesOfFreedom, to.degreesOfFreedom));
  const [before, after] = [loadCentre(layout, from.shares), loadCentre(layout, to.shares)];
  const change = (way: "forward" | "right", arms: Float64Array): Estimate => {
    const value = factor * (after[way] - before[way]);
    const reach = factor * half * Math.sqrt(spreadAlong(arms, from) + spreadAlong(arms, to));
    return { value, unit: "m", low: value - reach, high: value + reach };
  };
  return { [`${name}-forward`]: change("forward", layout.x), [`${name}-right`]: change("right", layout.y) };
}

/** Variance of the sum of shares times arms. */
function spreadAlong(arms: Float64Array, { covariance }: Trim): number {
  return arms.reduce(
    (sum, a, i) => sum + arms.reduce((inner, b, j) => inner + a * b * covariance.data[i * arms.length + j]!, 0),
    0,
  );
}
