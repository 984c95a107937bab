import type { Axis } from "../aircraft/index.ts";

/**
 * Quantities that answer one question together: power, the steadiness of each axis, the room left, the work of the
 * motors. Each table is corrected for its many comparisons by itself.
 */
export const TABLES = ["power", "roll", "pitch", "yaw", "room", "motors"] as const;
export type TableName = (typeof TABLES)[number];

/** One number that is measured alike in both flights, on every leg and in every piece of hover. */
export interface Quantity {
  readonly key: string;
  readonly table: TableName;
  readonly axis?: Axis;
  readonly loop?: "rate" | "attitude";
  readonly motor?: number;
  /** SI unit of its values */
  readonly unit: string;
  /** `ratio`: always above zero, compared by its logarithm; `difference`: compared as it is */
  readonly scale: "ratio" | "difference";
  /** which way is better; null where neither is */
  readonly better: "less" | "more" | null;
}

/** A quantity together with the way to measure it over one stretch of one flight. */
export interface Meter {
  readonly quantity: Quantity;
  /** @returns null where the stretch holds too little data */
  measure(span: { readonly start: number; readonly end: number }): number | null;
}

/** `error-rms-rate-pitch`: names a quantity among all. */
export function quantityId({ key, loop, axis, motor }: Quantity): string {
  return [key, loop, axis, motor === undefined ? undefined : `motor-${motor}`].filter(Boolean).join("-");
}
