import type { Place } from '../../trade/terms.js';
import type { Clause } from './clauses.js';
import type { Mention } from './mentions.js';

/** A thing named by the way: nothing is told of it, not even in words that the reader doesn't know. */
const onlyNamed = (clause: Clause): boolean =>
  clause.said.length === 0 &&
  !clause.same &&
  !clause.strange &&
  clause.mentions.length === 1 &&
  clause.mentions.every(
    ({ item, places, count, back, both }) =>
      item === null && places.length === 0 && count === null && back === null && !both,
  );

export const isPieceOf = (piece: Mention, whole: Mention): boolean =>
  piece.part !== null &&
  whole.part !== null &&
  (piece.part.within.includes(whole.part.part) || piece.part.part.startsWith(`${whole.part.part} `));

/** "Front fork. Right stanchion …": the whole, before a part of it. */
function headsNext(clause: Clause, next: Clause | undefined): boolean {
  const [whole, ...rest] = clause.mentions;
  const piece = next?.mentions[0];
  if (whole?.part == null || piece === undefined || rest.length > 0 || clause.said.length > 0) return false;
  if (clause.strange || clause.same || whole.item !== null) return false;
  return isPieceOf(piece, whole);
}

/** The heading's places that the piece can have, where it was given none itself. */
function placed(piece: Mention, places: readonly Place[]): Mention {
  if (piece.places.length > 0 || piece.back !== null || piece.part === null) return piece;
  const { sides } = piece.part;
  return { ...piece, places: places.filter((place) => sides.includes(place)) };
}

/** Without what only heads the message: "Front wheel. Rim rusty, spokes loose" tells of the front ones. */
export function withoutHeadings(clauses: readonly Clause[]): Clause[] {
  if (clauses.length < 2) return [...clauses];
  const out: Clause[] = [];
  let whole: Mention | null = null;
  clauses.forEach((clause, at) => {
    const heads = headsNext(clause, clauses[at + 1]);
    if (heads || onlyNamed(clause)) {
      whole = heads ? (clause.mentions[0] ?? null) : null;
      return;
    }
    const head = whole;
    const pieces =
      head !== null && clause.mentions.every((piece) => piece.back !== null || isPieceOf(piece, head));
    if (head === null || !pieces) {
      whole = null;
      out.push(clause);
    } else out.push({ ...clause, mentions: clause.mentions.map((piece) => placed(piece, head.places)) });
  });
  return out;
}
