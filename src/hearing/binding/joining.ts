import { newClause } from './clause-state.js';
import { isPieceOf } from './headings.js';
import type { Chunk, ChunkOf } from '../tagging/chunk.js';
import { curesFirst, decidedOf, waiting } from './attaching.js';
import type { Clause } from './clauses.js';

const INHERITS = new Set<Chunk['kind']>(['condition', 'remedy', 'process', 'act', 'supplier', 'date']);

/** What a clause takes over from the one before: all with "as well" or "same with", the decision alone for a thing added. */
export function inherited(clause: Clause, before: Clause | undefined): Chunk[] {
  if (before === undefined || clause.mentions.length === 0) return [];
  if (clause.same) {
    const own = new Set(clause.said.map((chunk) => chunk.kind));
    return before.said.filter(
      ({ kind }) => INHERITS.has(kind) && !own.has(kind) && !(clause.along && kind === 'condition'),
    );
  }
  if (clause.said.length === 0 && (clause.opaque || clause.strange)) return [];
  const agreed = before.said.filter((chunk) => chunk.kind === 'act' && chunk.act === 'agreed');
  const wanted = clause.said.every((chunk) => /^(remedy|process|money|count)$/.test(chunk.kind));
  if (clause.linked && clause.said.length > 0 && wanted && agreed.length > 0) return agreed;
  const [only, ...others] = clause.said;
  // "sliders back in, new seals": they are in as well.
  const fresh = only?.kind === 'remedy' && only.remedy === 'replace' && only.to - only.from === 1;
  const fitted = before.said.filter((chunk) => chunk.kind === 'act' && chunk.act === 'fitted');
  if (clause.linked && fresh && others.length === 0 && clause.fore === 1) return fitted;
  // "promised the crank by the 12th, head by the 15th"
  const promise = before.said.filter((chunk) => chunk.kind === 'act' && chunk.act === 'promised');
  const dated = clause.said.length > 0 && clause.said.every((chunk) => chunk.kind === 'date');
  if (clause.linked && dated && promise.length > 0)
    return before.said.filter((chunk) => chunk.kind === 'supplier' || promise.includes(chunk));
  const bought = before.said.some((chunk) => chunk.kind === 'act' && /^(ordered|sent)$/.test(chunk.act));
  const bare = clause.said.every(
    (chunk) =>
      chunk.kind === 'money' ||
      (bought &&
        (/^(date|supplier)$/.test(chunk.kind) || (chunk.kind === 'act' && chunk.act === 'promised'))),
  );
  return bare
    ? before.said.filter(
        (chunk) =>
          chunk.kind === 'remedy' ||
          chunk.kind === 'act' ||
          (chunk.kind === 'supplier' && !clause.said.some((own) => own.kind === 'supplier')),
      )
    : [];
}

const answer = (said: readonly Chunk[]): string | null => {
  const found = said.findLast(
    (chunk): chunk is ChunkOf<'act'> => chunk.kind === 'act' && chunk.act === 'agreed',
  );
  return found?.outcome ?? null;
};

/** "happy with the blue but not with the rims": two answers, the first about nothing we know. */
const ownAnswer = (lead: readonly Chunk[], said: readonly Chunk[]): boolean =>
  answer(lead) !== null && answer(said) !== null && answer(lead) !== answer(said);

/** A price or a day that follows "both to Arkle" is for both as well. */
const told = (chunk: Chunk): boolean => /^(money|date|process|supplier)$/.test(chunk.kind);

/** Names things of its own, rather than pointing at what was named before. */
const named = (clause: Clause): boolean =>
  clause.mentions.some((mention) => mention.back === null && mention.item === null);

/** "Front brake: shoes worn": kept until its place has gone to its pieces. */
const headsIt = (heading: Clause, clause: Clause): boolean => {
  const [whole, piece] = [heading.mentions[0], clause.mentions[0]];
  return whole !== undefined && piece !== undefined && whole.places.length > 0 && isPieceOf(piece, whole);
};

/** Clauses that name nothing join the one before them, or lead on to the one after. */
export function joinClauses(clauses: readonly Clause[]): Clause[] {
  const joined: Clause[] = [];
  let lead: Chunk[] = [];
  let all = false;
  let focus: Clause | undefined;
  for (const clause of clauses) {
    all = clause.all || (all && clause.mentions.length === 0);
    const heading = joined.at(-1);
    if (heading?.header === true && heading.said.length === 0 && named(clause) && !headsIt(heading, clause))
      joined.pop();
    const before = joined.at(-1);
    if (clause.mentions.length > 0) {
      if (ownAnswer(lead, clause.said)) {
        joined.push({ ...newClause(), said: lead });
        lead = lead.filter((chunk) => chunk.kind === 'owner');
      }
      joined.push({ ...clause, said: [...lead, ...clause.said], fore: clause.fore + lead.length });
      lead = [];
      focus = undefined;
    } else if (before === undefined && ownAnswer(lead, clause.said)) {
      joined.push({ ...clause, said: lead });
      lead = clause.said;
    } else if (before === undefined) lead = [...lead, ...clause.said];
    else if (clause.all || (all && clause.said.every(told)))
      for (const one of joined) {
        if (!(one.header && one.said.length === 0)) one.said = [...one.said, ...clause.said];
      }
    else if (ownAnswer(before.said, clause.said)) joined.push({ ...clause, fore: 0 });
    else if (clause.many && waiting(joined).length > 1)
      for (const one of waiting(joined)) one.said = [...one.said, ...clause.said];
    else {
      focus = decidedOf(joined, clause.said, focus) ?? before;
      focus.said = [...focus.said, ...clause.said];
    }
  }
  if (lead.length > 0 && (joined.length === 0 || joined.every((clause) => clause.mentions.length === 0)))
    joined.push({ ...newClause(), said: lead, same: clauses.some((clause) => clause.same) });
  return curesFirst(joined);
}

const measures = (clause: Clause): boolean =>
  clause.said.length > 0 &&
  clause.said.every((chunk) => chunk.kind === 'measure' || chunk.kind === 'quantity');

/** Tells how a thing is. */
const finds = (clause: Clause): boolean =>
  clause.said.some((chunk) => chunk.kind === 'condition') &&
  !clause.said.some((chunk) => chunk.kind === 'act');

const done = (clause: Clause): boolean =>
  clause.said.some((chunk) => chunk.kind === 'act' && /^(stripped|back|fitted)$/.test(chunk.act));

const onSides = (clause: Clause): boolean =>
  clause.mentions.every(
    ({ places }) => places.length > 0 && places.every((place) => /^(left|right)$/.test(place)),
  );

/** "tyres on, front 22 psi, rear 26": a thing named first, then its places one by one; it gives them its act and goes. */
export function spreadHeaders(clauses: readonly Clause[]): Clause[] {
  const out: Clause[] = [];
  let header: Clause | null = null;
  for (const clause of clauses) {
    const points =
      clause.mentions.length > 0 &&
      clause.mentions.every((mention) => mention.back === 'place' || mention.back === 'some');
    const before = out.at(-1);
    if (
      points &&
      before !== undefined &&
      header === null &&
      isHeader(before, measures(clause), onSides(clause), finds(clause))
    )
      // "sliders off. Left one's dented": what was done to both, then what was found on one.
      header = finds(clause) && done(before) ? { ...before, said: [] } : (out.pop() ?? null);
    if (!points) header = null;
    if (header === null) out.push(clause);
    else {
      const part = header.mentions.at(-1)?.part ?? null;
      const places = header.mentions.at(-1)?.places ?? [];
      const mentions = clause.mentions.map((mention) => ({
        ...mention,
        part,
        places: [...places, ...mention.places],
        back: null,
      }));
      out.push({ ...clause, mentions, said: [...header.said, ...clause.said] });
    }
  }
  return out;
}

/** "springs weak, inner 31 mm, outer 42": what follows only measures what was said of all. */
const isHeader = (clause: Clause, measured: boolean, sided: boolean, found: boolean): boolean =>
  clause.mentions.length === 1 &&
  clause.mentions[0]?.part != null &&
  clause.mentions[0].places.every((place) => /^(front|rear)$/.test(place)) &&
  (clause.mentions[0].places.length === 0 || sided) &&
  clause.said.every(
    (chunk) =>
      (chunk.kind === 'act' && chunk.outcome === null) ||
      (found && chunk.kind === 'supplier') ||
      (measured && chunk.kind === 'condition' && chunk.condition !== 'good'),
  );
