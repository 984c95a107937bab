import type { Diagnosis } from "../../findings/diagnosis.ts";

/** s, what the diagnosis looked at: from the first phase to the last, or the whole log where there are no phases. */
export function windowOfLog({ phases, log }: Pick<Diagnosis, "phases" | "log">): { start: number; end: number } {
  return { start: phases[0]?.start ?? 0, end: phases[phases.length - 1]?.end ?? log.duration };
}
