import type { Finding } from "../findings/finding.ts";
import { capital, plainText, turnWords } from "../words/index.ts";

type Named = Pick<
  Finding,
  "kind" | "axis" | "direction" | "motor" | "pattern" | "besides" | "alternatives" | "channel" | "loop"
> &
  Partial<Pick<Finding, "severity" | "measures">>;

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
      return finding.severity === "note" ? `Room left on ${motor}` : `Little room left on ${motor}`;
    case "motor-response":
      return capital(
        finding.alternatives?.includes("lifted-load")
          ? `${motor} lost thrust, or lifted a load`
          : `${motor} does not follow`,
      );
    case "authority":
      return authorityName(finding, axis);
    case "integrator-windup":
      return named(axis, "integrator wound up");
    case "thrust-imbalance":
      return imbalanceName(finding);
    case "tracking":
      return named(axis, trackingName(finding));
    case "loop-margin":
      return named(axis, "loop with a thin margin");
    case "vibration":
      return finding.motor === undefined ? named(axis, "vibration") : `Vibration from ${motor}`;
    case "sensor-clipping":
      return "Sensor at the end of its range";
    case "battery":
      return "Battery voltage sags";
    case "data-quality":
      return dataName(finding);
    default:
      return capital(plainText(finding.kind.replaceAll("-", " "), 40));
  }
}

/** "Left" is a direction here: what remains is called room. */
function authorityName({ axis, direction, severity }: Named, subject: string): string {
  const way = turnWords(axis ?? "", direction ?? "") ?? subject;
  if (severity === "note") return `Room to ${way}`;
  return severity === "advisory" ? `Little room to ${way}` : `Hardly any room to ${way}`;
}

function imbalanceName({ pattern, besides, motor }: Named): string {
  // The motor that stands out most need not be the one that a cause names.
  if (besides !== undefined)
    return motor === undefined ? "Load uneven, two causes" : `Motor ${motor} weak, with a second cause`;
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

function trackingName({ loop, severity }: Named): string {
  const quantity = loop === "attitude" ? "angle" : (loop ?? "");
  return severity === "note" ? `${quantity}: how closely it followed` : `${quantity} strays from what was asked`;
}

/** What is wrong shows in what was measured; which channel, where it is one. */
function dataName({ channel = "all", measures = {}, severity }: Named): string {
  const [subject, whole] = channel === "all" ? ["", "Log"] : [plainText(channel, 40), plainText(channel, 40)];
  if ("rows-cut" in measures) return "Log cut off in a row";
  if ("flown" in measures) return severity === "note" ? "Stretch ends in the air" : "Log ends in the air";
  if ("set-point-range" in measures) return `${whole} hardly moves`;
  if ("stuck" in measures) return `${whole} stands still`;
  if ("backwards" in measures) return "Time stamps out of order";
  if ("gaps" in measures) return subject === "" ? "Pauses in the log" : `Pauses in ${subject}`;
  return subject === "" ? "State of the log" : `State of ${subject}`;
}

function named(subject: string, what: string): string {
  return capital(`${subject} ${what}`.replace(/\s+/g, " ").trim());
}
