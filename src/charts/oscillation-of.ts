import { type OscillationEvidence, oscillation } from "../detect/index.ts";
import type { Finding } from "../findings/finding.ts";
import type { Flight } from "../flight/flight.ts";

/** The evidence behind a finding of an oscillation, computed once a flight; undefined where there is none. */
export function oscillationOf(flight: Flight, finding: Finding): OscillationEvidence | undefined {
  if (oscillation.missing(flight).length > 0) return undefined;
  return oscillation.detect(flight).find(({ axis, start }) => axis === finding.axis && start === finding.start);
}
