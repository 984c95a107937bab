/**
 * The candidate with the fewest edits (insert, delete, replace, swap of neighbours) from `word`, ignoring case; null
 * where even the best needs more than a third of the longer word's letters.
 *
 * Candidates longer than 200 characters are passed over: nobody mistypes those, and the work grows with the square.
 */
export function nearestWord(word: string, candidates: Iterable<string>): string | null {
  let best: string | null = null;
  let fewest = Number.POSITIVE_INFINITY;
  if (word.length > 200) return null;
  for (const candidate of candidates) {
    if (candidate.length > 200 || candidate === "") continue;
    const edits = editDistance(word.toLowerCase(), candidate.toLowerCase());
    if (edits < fewest && edits <= Math.max(word.length, candidate.length) / 3) [best, fewest] = [candidate, edits];
  }
  return best;
}

/** Optimal string alignment distance. */
function editDistance(a: string, b: string): number {
  let before: number[] = [];
  let last = Array.from({ length: b.length + 1 }, (_, at) => at);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const replaced = last[j - 1]! + (a[i - 1] === b[j - 1] ? 0 : 1);
      const isSwap = i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1];
      row.push(Math.min(replaced, last[j]! + 1, row[j - 1]! + 1, isSwap ? before[j - 2]! + 1 : replaced));
    }
    [before, last] = [last, row];
  }
  return last[b.length]!;
}
