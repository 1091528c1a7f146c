import type { Refusal, Target } from '../commands.js';
import { resolve } from '../resolve.js';
import type { Item, JobState, Line } from '../state.js';
import { isOut } from '../state.js';

/**
 * The open lines a message means: those of the item named, else all of the supplier's. Of several items with the name
 * that are out, a date is for all; of a return it is asked which came.
 */
export function linesMeant(
  state: JobState,
  target: Target,
  supplier: string | null,
  several: 'all' | 'ask',
): { lines: Line[] } | { refusal: Refusal } {
  const out = Object.values(state.lines).filter(isOut);
  const found = resolve(state, target);
  switch (found.kind) {
    case 'found':
      return { lines: theirsFirst(linesOfAny(out, [found.item]), supplier) };
    case 'each':
    case 'several':
      return narrow(out, found.items, supplier, several);
    case 'no-such-item':
      return { refusal: { why: 'no-such-item', item: found.item } };
    case 'new':
      return { lines: [] };
    case 'nothing-named':
      return { lines: supplier === null ? [] : out.filter((line) => line.supplier === supplier) };
  }
}

const linesOfAny = (lines: readonly Line[], items: readonly Item[]): Line[] =>
  lines.filter((line) => items.some((item) => item.number === line.item));

/** Those with the supplier named; where none is, whoever has them is meant. */
function theirsFirst(lines: Line[], supplier: string | null): Line[] {
  const theirs = lines.filter((line) => line.supplier === supplier);
  return theirs.length > 0 ? theirs : lines;
}

function narrow(
  out: readonly Line[],
  items: readonly Item[],
  supplier: string | null,
  several: 'all' | 'ask',
): ReturnType<typeof linesMeant> {
  const lines = theirsFirst(linesOfAny(out, items), supplier);
  const candidates = [...new Set(lines.map((line) => line.item))];
  if (candidates.length === 1 || (candidates.length > 1 && several === 'all')) return { lines };
  const asked = candidates.length > 0 ? candidates : items.map((item) => item.number);
  return { refusal: { why: 'which-item', candidates: asked } };
}
