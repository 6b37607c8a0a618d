/**
 * Which known name did a misspelt one mean? Edit distance with adjacent swaps
 * (optimal string alignment), letters compared without case, cut off early at
 * the best distance so far. Source: Damerau, "A technique for computer
 * detection and correction of spelling errors", CACM 7(3), 1964 (from memory).
 */

/**
 * Edits between two texts, or `limit + 1` where there are more than `limit`.
 * O(a * b), left early when a whole row is above the limit.
 */
export function editDistance(a: string, b: string, limit: number): number {
  if (Math.abs(a.length - b.length) > limit) return limit + 1;
  let before: number[] = [];
  let above = Array.from({ length: b.length + 1 }, (_, column) => column);
  for (let row = 1; row <= a.length; row++) {
    const now = [row];
    let best = row;
    for (let column = 1; column <= b.length; column++) {
      const same = a[row - 1] === b[column - 1];
      let edits = Math.min(
        (above[column] as number) + 1,
        (now[column - 1] as number) + 1,
        (above[column - 1] as number) + (same ? 0 : 1),
      );
      const swapped = row > 1 && column > 1 && a[row - 1] === b[column - 2] && a[row - 2] === b[column - 1];
      if (swapped) edits = Math.min(edits, (before[column - 2] as number) + 1);
      now.push(edits);
      best = Math.min(best, edits);
    }
    if (best > limit) return limit + 1;
    before = above;
    above = now;
  }
  return Math.min(above[b.length] as number, limit + 1);
}

/** Edits a name of this length may have before a suggestion would be a guess. */
function toleratedEdits(length: number): number {
  return length <= 2 ? 1 : length <= 6 ? 2 : 3;
}

/** The known name closest to `text`, first one on ties; `null` where none is close. */
export function nearestName(text: string, names: Iterable<string>): string | null {
  const wanted = text.slice(0, 120).toLowerCase();
  let limit = Math.min(toleratedEdits(wanted.length), wanted.length - 1);
  let best: string | null = null;
  for (const name of names) {
    const edits = editDistance(wanted, name.slice(0, 120).toLowerCase(), limit);
    if (edits <= limit && (best === null || edits < limit)) {
      best = name;
      limit = edits;
      if (edits === 0) break;
    }
  }
  return best;
}

/** "Did you mean `S.41`?", or an empty text. */
export function suggestion(text: string, names: Iterable<string>): string {
  const name = nearestName(text, names);
  return name === null ? '' : `Did you mean \`${name}\`?`;
}
