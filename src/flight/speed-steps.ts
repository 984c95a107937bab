import { quantile } from "../signal/index.ts";
import { type Grid, runsOf } from "./grid.ts";

/** A steady stretch of cruise: half-open range of grid cells with its middle speed, m/s. */
export interface Plateau {
  readonly from: number;
  readonly to: number;
  readonly speed: number;
}

/** s; a shorter stretch is not called steady */
const SHORTEST = 3;

/** m/s; speeds nearer than this, or 10 %, are one step: closer than crews set steps apart (common practice) */
export const speedTolerance = (speed: number) => Math.max(0.7, 0.1 * speed);

/**
 * Steady stretches within a run of cruise: the run is cut in two where that explains most of its variance, again and
 * again (binary segmentation), as long as the two sides differ by more than one step's tolerance; the accelerating
 * ends of each part are then left off.
 *
 * @param speed m/s in each cell; NaN cells end a stretch
 * @see Scott and Knott 1974, Biometrics 30(3):507-512
 */
export function findPlateaus(speed: Float64Array, grid: Grid, from: number, to: number): Plateau[] {
  const shortest = Math.round(SHORTEST / grid.step);
  const plateaus: Plateau[] = [];
  for (const known of runsOf(speed.subarray(from, to).map((value) => (Number.isNaN(value) ? 0 : 1)))) {
    for (const part of segments(speed, from + known.from, from + known.to, shortest)) {
      const middle = quantile(speed.slice(part.from, part.to), 0.5);
      let { from: first, to: last } = part;
      while (first < last && Math.abs(speed[first]! - middle) > speedTolerance(middle)) first++;
      while (last > first && Math.abs(speed[last - 1]! - middle) > speedTolerance(middle)) last--;
      if (last - first >= shortest) {
        plateaus.push({ from: first, to: last, speed: quantile(speed.slice(first, last), 0.5) });
      }
    }
  }
  return plateaus;
}

function segments(speed: Float64Array, from: number, to: number, shortest: number): { from: number; to: number }[] {
  const cut = bestCut(speed, from, to, shortest);
  if (cut === null) return [{ from, to }];
  return [...segments(speed, from, cut, shortest), ...segments(speed, cut, to, shortest)];
}

function bestCut(speed: Float64Array, from: number, to: number, shortest: number): number | null {
  const total = speed.subarray(from, to).reduce((sum, value) => sum + value, 0);
  let left = 0;
  let best: { cut: number; gain: number; step: number } | null = null;
  for (let cut = from + 1; cut < to; cut++) {
    left += speed[cut - 1]!;
    if (cut - from < shortest || to - cut < shortest) continue;
    const before = left / (cut - from);
    const after = (total - left) / (to - cut);
    const gain = (((cut - from) * (to - cut)) / (to - from)) * (after - before) ** 2;
    if (best === null || gain > best.gain) {
      best = { cut, gain, step: Math.abs(after - before) - speedTolerance(Math.min(before, after)) };
    }
  }
  return best !== null && best.step > 0 ? best.cut : null;
}

/**
 * Numbers the speed steps: plateaus of about the same speed are one step, wherever they are flown; steps count from 1
 * in order of first appearance.
 *
 * @returns the step of each plateau, same order
 */
export function numberSteps(plateaus: readonly Plateau[]): number[] {
  const groups: { sum: number; count: number; first: number }[] = [];
  const groupOf = new Map<Plateau, (typeof groups)[number]>();
  for (const plateau of [...plateaus].sort((a, b) => a.speed - b.speed)) {
    const group = groups.at(-1);
    const order = plateaus.indexOf(plateau);
    if (group !== undefined && plateau.speed - group.sum / group.count <= speedTolerance(group.sum / group.count)) {
      group.sum += plateau.speed;
      group.count++;
      group.first = Math.min(group.first, order);
      groupOf.set(plateau, group);
    } else {
      groups.push({ sum: plateau.speed, count: 1, first: order });
      groupOf.set(plateau, groups.at(-1)!);
    }
  }
  const inOrder = [...groups].sort((a, b) => a.first - b.first);
  return plateaus.map((plateau) => inOrder.indexOf(groupOf.get(plateau)!) + 1);
}
