import { channelOf, type Flight, motorsWith } from "../../flight/index.ts";
import type { Span } from "../../log/channel.ts";
import { aliasedFrequency, mean } from "../../signal/index.ts";
import { valuesWithin } from "../air-time.ts";
import type { Estimate } from "../evidence.ts";

/** A rotor whose shaking, logged too slowly, would show at an oscillation's frequency. */
export interface RotorAlias {
  readonly motor: number;
  /** times the rotor's speed: 1 for imbalance, the number of blades for their passing */
  readonly harmonic: number;
  /** Hz, what it would really be */
  readonly frequency: number;
  /** Hz, rows a second of the log that folds it */
  readonly rate: number;
}

/** The number of blades is not known: imbalance and what two to four blades make. */
const HARMONICS = [1, 2, 3, 4];
/** Share of the frequency within which a fold counts as the same line, at least. */
const SLACK = 0.03;

/**
 * The rotor line above half the log's rate that folds to a frequency while it lasted; the nearest where several do. A
 * rotor whose speed wandered makes no line and so no oscillation.
 */
export function rotorAlias(flight: Flight, rate: number, frequency: Estimate, span: Span): RotorAlias | null {
  const reach = Math.max(SLACK * frequency.value, ((frequency.high ?? 0) - (frequency.low ?? 0)) / 2);
  let [best, distance]: [RotorAlias | null, number] = [null, reach];
  for (const motor of motorsWith(flight, "speed")) {
    const speeds = valuesWithin(channelOf(flight, `motor.${motor}.speed`)!.series, [span]);
    if (speeds.length === 0) continue;
    const turns = mean(speeds) / (2 * Math.PI);
    const wander = Math.sqrt(mean(speeds.map((speed) => (speed / (2 * Math.PI) - turns) ** 2)));
    for (const harmonic of HARMONICS) {
      const line = harmonic * turns;
      if (line < rate / 2 || harmonic * wander > reach) continue;
      const off = Math.abs(aliasedFrequency(line, rate) - frequency.value);
      if (off <= distance) [best, distance] = [{ motor, harmonic, frequency: line, rate }, off];
    }
  }
  return best;
}
