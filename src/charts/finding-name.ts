import type { Finding } from "../findings/finding.ts";
import { capital, plainText } from "../words/index.ts";

type Named = Pick<Finding, "kind" | "axis" | "motor" | "motors" | "direction" | "pattern" | "channel" | "loop">;

/** A finding in two to five words, for a time line, a list or a heading: `Pitch oscillation`, `Motor 3 at its ceiling`. */
export function findingName(finding: Named): string {
  const axis = finding.axis === undefined ? "" : plainText(finding.axis, 16);
  const motor = finding.motor === undefined ? "motor" : `motor ${finding.motor}`;
  switch (finding.kind) {
    case "oscillation":
      return named(axis, "oscillation");
    case "upset":
      return named(axis, "upset");
    case "motor-saturation":
      return capital(`${motor} at its ceiling`);
    case "motor-floor":
      return capital(`${motor} at its floor`);
    case "motor-headroom":
      return capital(`room left to ${motor}`);
    case "motor-response":
      return capital(`${motor} does not follow`);
    case "authority":
      return named(axis, "control nearly used up");
    case "integrator-windup":
      return named(axis, "integrator wound up");
    case "thrust-imbalance":
      return imbalanceName(finding);
    case "tracking":
      return named(axis, `${finding.loop === "attitude" ? "angle" : (finding.loop ?? "")} against what was asked`);
    case "loop-margin":
      return named(axis, "loop with a thin margin");
    case "vibration":
      return finding.motor === undefined ? named(axis, "vibration") : `Vibration from ${motor}`;
    case "sensor-clipping":
      return "Sensor at the end of its range";
    case "battery":
      return "Battery voltage sags";
    case "data-quality":
      return finding.channel === undefined ? "State of the data" : `Data: ${plainText(finding.channel, 40)}`;
    default:
      return capital(plainText(finding.kind.replaceAll("-", " "), 40));
  }
}

function imbalanceName({ pattern, motor }: Named): string {
  switch (pattern) {
    case "single-motor":
      return motor === undefined ? "One motor works harder" : `Motor ${motor} works harder`;
    case "centre-of-gravity":
      return "Centre of gravity off the middle";
    case "spin-pair":
      return "One spin direction works harder";
    default:
      return "Motors share the load unevenly";
  }
}

function named(subject: string, what: string): string {
  return capital(`${subject} ${what}`.replace(/\s+/g, " ").trim());
}
