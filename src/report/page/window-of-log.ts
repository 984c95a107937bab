import { extentOf } from "../../charts/index.ts";
import type { Diagnosis } from "../../findings/diagnosis.ts";

/** s, what the diagnosis speaks of: from the first phase to the last, and whatever findings lie beyond. */
export function windowOfLog({ phases, log, findings }: Pick<Diagnosis, "phases" | "log" | "findings">): {
  start: number;
  end: number;
} {
  const span = { start: phases[0]?.start ?? 0, end: phases[phases.length - 1]?.end ?? log.duration };
  return extentOf(span, findings);
}
