/** How sure a finding is, in words and a number; never `certain`. */
export function confidenceWords(confidence: number): string {
  const percent = Math.min(99, Math.floor(confidence * 100));
  if (confidence >= 0.95) return `very sure: about ${percent} in 100 such findings are true`;
  if (confidence >= 0.8) return `fairly sure: about ${percent} in 100 such findings are true`;
  if (confidence >= 0.5) return `more likely than not: about ${percent} in 100 such findings are true`;
  return `a hint only: about ${percent} in 100 such findings are true`;
}
