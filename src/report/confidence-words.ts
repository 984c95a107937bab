import type { Finding } from "../findings/finding.ts";

/**
 * How sure a finding is and of what, in words and a number; never `certain`. Only a thrust imbalance is named for what
 * explains it; of every other finding the number is for what was seen, and the cause is another question.
 */
export function confidenceWords({ confidence, kind }: Pick<Finding, "confidence" | "kind">): string {
  const percent = Math.min(99, Math.floor(confidence * 100));
  const what = kind === "thrust-imbalance" ? "that this is the cause" : "that this is so, whatever the cause";
  return `${howSure(confidence)} ${what}: about ${percent} in 100 such findings are true`;
}

function howSure(confidence: number): string {
  if (confidence >= 0.95) return "very sure";
  if (confidence >= 0.8) return "fairly sure";
  return confidence >= 0.5 ? "more likely than not" : "a hint only";
}
