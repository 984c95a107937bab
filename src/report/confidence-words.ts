import type { Finding } from "../findings/finding.ts";

/**
 * How sure a finding is and of what, in words and a number; never `certain`. Only a thrust imbalance is named for what
 * explains it, and a loss of thrust that a lifted load would explain as well is weighed against the load; of every other finding the number is for what was seen, and the cause is another question.
 */
export function confidenceWords({
  confidence,
  kind,
  alternatives,
}: Pick<Finding, "confidence" | "kind" | "alternatives">): string {
  const percent = Math.min(99, Math.floor(confidence * 100));
  const what = alternatives?.includes("lifted-load")
    ? "that thrust was lost and no load lifted"
    : kind === "thrust-imbalance"
      ? "that this is the cause"
      : "that this is so, whatever the cause";
  return `${howSure(confidence)} ${what}: about ${percent} in 100 such findings are true`;
}

function howSure(confidence: number): string {
  if (confidence >= 0.95) return "very sure";
  if (confidence >= 0.8) return "fairly sure";
  return confidence >= 0.5 ? "more likely than not" : "a hint only";
}
