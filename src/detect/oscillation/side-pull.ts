import type { Axis } from "../../aircraft/index.ts";
import type { Flight } from "../../flight/index.ts";
import { normalDensity } from "../../signal/index.ts";
import type { Estimate } from "../evidence.ts";
import type { ModeMeasures } from "./mode-measures.ts";
import { relationTo } from "./second-witness.ts";

/**
 * How hard something pulled sideways along with a swing: the specific force in the direction in which the axis tilts,
 * over gravity times the swing's angle. The rotors push along the body's own vertical and gravity is not felt, so what
 * is felt sideways is the air's drag (small), the sensor's distance from the centre (small while slow), or a line.
 */
export interface SidePull {
  readonly size: Estimate;
  /** share of the force's power in the band that goes with the swing */
  readonly coherence: number;
}

const GRAVITY = 9.81;

/** null for yaw, and where the specific force is not logged. */
export function sidePull(flight: Flight, axis: Axis, mode: ModeMeasures): SidePull | null {
  if (axis === "yaw") return null;
  const felt = relationTo(flight, `acceleration.${axis === "roll" ? "y" : "x"}`, mode);
  if (felt === null) return null;
  const omega = 2 * Math.PI * mode.frequency.value;
  const size = (felt.magnitude * omega) / GRAVITY;
  const factor = Math.exp(Math.min(1, felt.reach));
  return { size: { value: size, unit: "1", low: size / factor, high: size * factor }, coherence: felt.coherence };
}

/** A load of a seventh of the aircraft's mass that swings twice as far as the aircraft pulls a third as hard, and so on. */
const LOAD = { value: 1.1, spread: 0.8 };
/** 1/s, drag over mass and speed (common practice), and m, distance of the sensor from the centre */
const DRAG = 0.25;
const DISTANCE = 0.04;
const INNOCENT_SPREAD = 0.6;
/** Share of the force's power from which it goes with the swing. */
const LEAST_COHERENCE = 0.7;

/** How likely a pull is where a load swings along and where nothing hangs below, as densities of its logarithm. */
export function pullLikelihoods({ size, coherence }: SidePull, frequency: number): { load: number; none: number } {
  const omega = 2 * Math.PI * frequency;
  const innocent = Math.hypot(DRAG / omega, (DISTANCE * omega * omega) / GRAVITY);
  const error = Math.log(size.high! / size.low!) / (2 * 1.96);
  const at = (middle: number, spread: number) =>
    density(Math.log(Math.max(1e-6, size.value) / middle), Math.hypot(spread, error));
  // A smaller pull than drag makes is as good a sign of nothing hanging below as one of its size.
  const none = size.value < innocent ? density(0, INNOCENT_SPREAD) : at(innocent, INNOCENT_SPREAD);
  return coherence < LEAST_COHERENCE ? { load: 0, none } : { load: at(LOAD.value, LOAD.spread), none };
}

const density = (x: number, spread: number) => normalDensity(x / spread) / spread;
