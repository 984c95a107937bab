import type { Flight } from "../flight/index.ts";
import { metersOf } from "./meters.ts";
import { type Meter, type Quantity, quantityId } from "./quantity.ts";
import type { FlownCondition, Replicate } from "./replicates.ts";
import { type AirSpeeds, airSpeeds } from "./wind.ts";

/** A flight's conditions with everything measured on each leg and piece of hover. */
export interface MeasuredFlight {
  readonly conditions: readonly FlownCondition[];
  readonly meters: readonly Meter[];
  readonly quantities: readonly Quantity[];
  readonly airBy: AirSpeeds["by"] | null;
  readonly wind: AirSpeeds["wind"];
  /** m/s through the air of each replicate; null where it cannot be told */
  readonly air: ReadonlyMap<Replicate, number> | null;
  /** the quantity on one replicate; null where it could not be measured */
  valueOf(quantity: string, replicate: Replicate): number | null;
}

/** Measures a flight; every value is computed once. */
export function measureFlight(
  flight: Flight,
  conditions: readonly FlownCondition[],
  modes: ReadonlyMap<string, number>,
): MeasuredFlight {
  const meters = metersOf(flight, modes);
  const byId = new Map(meters.map((meter) => [quantityId(meter.quantity), meter]));
  const replicates = conditions.flatMap((condition) => condition.replicates);
  const air = airSpeeds(flight, replicates);
  const known = new Map<string, Map<Replicate, number | null>>();
  return {
    conditions,
    meters,
    quantities: meters.map(({ quantity }) => quantity),
    airBy: air?.by ?? null,
    wind: air?.wind ?? null,
    air: air === null ? null : new Map(replicates.map((replicate, i) => [replicate, air.speeds[i]!])),
    valueOf(id, replicate) {
      const meter = byId.get(id);
      if (meter === undefined) return null;
      const values = known.get(id) ?? new Map<Replicate, number | null>();
      known.set(id, values);
      if (!values.has(replicate)) values.set(replicate, meter.measure(replicate));
      return values.get(replicate)!;
    },
  };
}
