import type { HeardWord } from '../src/desk/heard.js';

/**
 * The words of the best hypothesis, each with the share of its rivals that have the same word there: rivals are laid beside it by the
 * fewest edits (Wagner and Fischer 1974). Without rivals every word is sure.
 */
export function agreement(best: readonly string[], rivals: readonly (readonly string[])[]): HeardWord[] {
  const heard = rivals.filter((rival) => rival.length > 0);
  const kept = heard.map((rival) => keptWords(best, rival));
  return best.map((word, at) => ({
    word,
    confidence: heard.length === 0 ? 1 : kept.filter((words) => words.has(at)).length / heard.length,
  }));
}

/** Which places of `best` hold the same word in `rival`, where the two are laid side by side. */
function keptWords(best: readonly string[], rival: readonly string[]): Set<number> {
  const cost = costs(best, rival);
  const at = (row: number, column: number): number => cost[row]?.[column] ?? Infinity;
  const kept = new Set<number>();
  let [row, column] = [best.length, rival.length];
  while (row > 0 && column > 0) {
    const same = best[row - 1] === rival[column - 1];
    if (at(row, column) === at(row - 1, column - 1) + (same ? 0 : 1)) {
      row -= 1;
      column -= 1;
      if (same) kept.add(row);
    } else if (at(row, column) === at(row - 1, column) + 1) row -= 1;
    else column -= 1;
  }
  return kept;
}

function costs(best: readonly string[], rival: readonly string[]): number[][] {
  const rows: number[][] = [[0, ...rival.map((_, index) => index + 1)]];
  for (const word of best) {
    const above = rows.at(-1) ?? [];
    const row = [(above[0] ?? 0) + 1];
    for (const [index, other] of rival.entries()) {
      const replaced = (above[index] ?? 0) + (word === other ? 0 : 1);
      row.push(Math.min(replaced, (above[index + 1] ?? 0) + 1, (row[index] ?? 0) + 1));
    }
    rows.push(row);
  }
  return rows;
}
