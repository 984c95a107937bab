import { AXES } from "../aircraft/index.ts";
import { pairResponse, rangesWithin, responseError } from "../detect/index.ts";
import { channelOf, type Flight } from "../flight/index.ts";
import type { Span } from "../log/index.ts";
import { quantile } from "../signal/index.ts";
import type { Meter } from "./quantity.ts";

/** Fewer samples than this tell nothing about a loop. */
const FEWEST_SAMPLES = 20;

/** How far each axis strays from what was asked of it: rms of the error, and what 95 % of its sizes stay below. */
export function trackingMeters(flight: Flight): Meter[] {
  return (["rate", "attitude"] as const).flatMap((loop) =>
    AXES.flatMap((axis): Meter[] => {
      const measured = channelOf(flight, `${loop}.${axis}.measured`);
      const setpoint = channelOf(flight, `${loop}.${axis}.setpoint`);
      if (measured === undefined || setpoint === undefined) return [];
      const pair = pairResponse(measured, setpoint, flight.airborne);
      const error = responseError(pair, loop);
      const within = (span: Span) => {
        const parts = rangesWithin(pair.time, [span]).map(({ from, to }) => error.subarray(from, to));
        const sizes = Float64Array.from(parts.flatMap((part) => Array.from(part, Math.abs)));
        return sizes.length < FEWEST_SAMPLES ? null : sizes;
      };
      const of = (span: Span, statistic: (sizes: Float64Array) => number) => {
        const sizes = within(span);
        const value = sizes === null ? 0 : statistic(sizes);
        return value > 0 ? value : null;
      };
      const common = { table: axis, loop, axis, scale: "ratio", better: "less" } as const;
      const unit = loop === "rate" ? "rad/s" : "rad";
      return [
        { quantity: { key: "error-rms", unit, ...common }, measure: (span) => of(span, rms) },
        { quantity: { key: "error-p95", unit, ...common }, measure: (span) => of(span, (e) => quantile(e, 0.95)) },
      ];
    }),
  );
}

const rms = (values: Float64Array) => Math.sqrt(values.reduce((sum, e) => sum + e * e, 0) / values.length);
