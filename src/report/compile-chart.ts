import type { LoggerInterface, Spec } from "vega";
import { compile, type TopLevelSpec } from "vega-lite";
import type { Chart } from "../charts/index.ts";

/** Vega-Lite to Vega. What the compiler would only print as a warning is an error here: a chart must mean one thing. */
export function compileChart(chart: Pick<Chart, "id">, spec: TopLevelSpec): Spec {
  const warnings: unknown[] = [];
  const collect = (...message: unknown[]) => {
    warnings.push(...message);
    return logger;
  };
  const logger: LoggerInterface = {
    level: (() => logger) as LoggerInterface["level"],
    error: collect,
    warn: collect,
    info: () => logger,
    debug: () => logger,
  };
  const { spec: compiled } = compile(spec, { logger });
  if (warnings.length > 0) throw new Error(`chart ${chart.id}: ${warnings.join("; ")}`);
  return compiled;
}
