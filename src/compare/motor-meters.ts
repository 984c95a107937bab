import { type CommandRange, commandFraction } from "../aircraft/index.ts";
import { authoritySeries, rangesWithin, thrustDemand, valuesWithin } from "../detect/index.ts";
import { channelOf, commandedMotors, commandLimits, type Flight } from "../flight/index.ts";
import type { Span } from "../log/index.ts";
import { mean, quantile, quantiles } from "../signal/index.ts";
import { meanOver } from "./mean-over.ts";
import type { Meter } from "./quantity.ts";

/** Fewer samples than this have no percentiles worth the name. */
const FEWEST_SAMPLES = 50;
/** s; how hard the controller works is what the commands do about their mean over so long */
const ACTIVITY_WINDOW = 1;

/** What the motors do and what they have left: activity, headroom at both ends, authority, imbalance, mean commands. */
export function motorMeters(flight: Flight): Meter[] {
  const motors = commandedMotors(flight);
  const limits = commandLimits(flight.log, flight.aircraft);
  if (motors.length === 0 || limits?.from !== "aircraft") return [];
  const range: CommandRange = { unit: "", ...limits };
  const floor = commandFraction(range, limits.idle);
  const commands = motors.map((motor) => {
    const { time, values } = channelOf(flight, `motor.${motor}.command`)!.series;
    return { motor, series: { time, values: values.map((value) => commandFraction(range, value)) } };
  });
  const least = (span: Span, of: (values: Float64Array) => number) => {
    const all = commands.map(({ series }) => valuesWithin(series, [span]));
    return all.some((values) => values.length < FEWEST_SAMPLES) ? null : Math.min(...all.map(of));
  };
  const room = { table: "room", unit: "1", scale: "difference" } as const;
  return [
    {
      quantity: { key: "activity", table: "motors", unit: "1", scale: "ratio", better: "less" },
      measure: (span) => activity(commands, span),
    },
    {
      quantity: { key: "headroom-above", better: "more", ...room },
      measure: (span) => least(span, (values) => 1 - quantile(values, 0.99)),
    },
    {
      quantity: { key: "headroom-below", better: "more", ...room },
      measure: (span) => least(span, (values) => quantile(values, 0.01) - floor),
    },
    ...authorityMeters(flight),
    ...imbalanceMeter(flight),
    ...commands.map(({ motor }): Meter => {
      const channel = channelOf(flight, `motor.${motor}.command`)!;
      return {
        quantity: { key: "mean-command", table: "motors", motor, unit: "1", scale: "difference", better: null },
        measure: (span) => meanOver([channel], span, (value) => commandFraction(range, value!)),
      };
    }),
  ];
}

type Commands = readonly { readonly series: { readonly time: Float64Array; readonly values: Float64Array } }[];

/** Root mean square, over all motors, of the command about its mean in windows of a second. */
function activity(commands: Commands, span: Span): number | null {
  let [squares, count] = [0, 0];
  for (const { series } of commands) {
    for (let start = span.start; start + ACTIVITY_WINDOW <= span.end + 1e-9; start += ACTIVITY_WINDOW) {
      const values = valuesWithin(series, [{ start, end: start + ACTIVITY_WINDOW - 1e-9 }]);
      if (values.length < 4) continue;
      const middle = mean(values);
      squares += values.reduce((sum, value) => sum + (value - middle) ** 2, 0);
      count += values.length;
    }
  }
  return count > 0 && squares > 0 ? Math.sqrt(squares / count) : null;
}

/** The least moment still available about each axis, of both directions: its first percentile on the leg. */
function authorityMeters(flight: Flight): Meter[] {
  const series = authoritySeries(flight);
  if (series === null) return [];
  const { time } = series.motors;
  return [...new Set(series.axes.map(({ axis }) => axis))].map((axis) => ({
    quantity: { key: "authority", table: "room", axis, unit: "1", scale: "difference", better: "more" },
    measure(span) {
      const range = rangesWithin(time, [span])[0];
      if (range === undefined || range.to - range.from < FEWEST_SAMPLES) return null;
      const sides = series.axes.filter((one) => one.axis === axis);
      return Math.min(...sides.map(({ left }) => quantiles(left.slice(range.from, range.to), [0.01])[0]!));
    },
  }));
}

/** How unevenly the motors share the load: standard deviation of their mean thrust demands over the mean of all. */
function imbalanceMeter(flight: Flight): Meter[] {
  const demand = thrustDemand(flight, { commandOnly: true });
  if (demand === null) return [];
  return [
    {
      quantity: { key: "imbalance", table: "room", unit: "1", scale: "difference", better: "less" },
      measure(span) {
        const all = demand.within(span).map(({ values }) => values);
        if (all.some((values) => values.length < FEWEST_SAMPLES)) return null;
        const means = all.map(mean);
        const middle = mean(means);
        if (!(middle > 0)) return null;
        return Math.sqrt(means.reduce((sum, value) => sum + (value - middle) ** 2, 0) / means.length) / middle;
      },
    },
  ];
}
