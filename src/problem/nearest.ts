/** The nearest right spelling of a word. */

/**
 * Damerau-Levenshtein distance (optimal string alignment): insertions, deletions, replacements and swaps of neighbours,
 * each counted once. Source: the textbook recurrence.
 */
export function distance(a: string, b: string): number {
  let beforeLast: number[] = [];
  let last = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const cost = a[i - 1] === b[j - 1] ? 0 : 1;
      let best = Math.min(last[j]! + 1, row[j - 1]! + 1, last[j - 1]! + cost);
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1])
        best = Math.min(best, beforeLast[j - 2]! + 1);
      row.push(best);
    }
    beforeLast = last;
    last = row;
  }
  return last[b.length]!;
}

const plain = (word: string): string =>
  word
    .toLowerCase()
    .replace(/[\s_-]+/g, ' ')
    .trim();

/** The known word that was most likely meant, or null where none is near; the first listed wins a tie. */
export function nearest(word: string, known: Iterable<string>): string | null {
  const wanted = plain(word.slice(0, 80));
  let best: string | null = null;
  let least = Math.max(1, Math.floor(wanted.length / 3)) + 1;
  for (const candidate of known) {
    if (Math.abs(candidate.length - wanted.length) >= least + 4) continue;
    const apart = distance(wanted, plain(candidate));
    if (apart < least) [best, least] = [candidate, apart];
  }
  return best;
}
