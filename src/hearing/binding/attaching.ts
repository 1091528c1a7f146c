import type { Condition, Process } from '../../trade/terms.js';
import type { Chunk, ChunkOf } from '../tagging/chunk.js';
import type { Clause } from './clause-state.js';

/** The faults that a work is done for. What isn't here is done for any. Common practice, no source. */
const CURES: Partial<Record<Process, readonly Condition[]>> = {
  straighten: ['bent', 'out-of-true', 'dented'],
  weld: [
    'cracked',
    'broken',
    'split',
    'worn',
    'missing',
    'bodged',
    'oval',
    'leaking',
    'rusty',
    'stripped-thread',
  ],
  reline: ['worn', 'glazed', 'contaminated'],
  rewind: ['burnt', 'broken', 'weak'],
  rebore: ['worn', 'scored', 'oval', 'seized', 'pitted', 'rusty'],
  hone: ['glazed', 'scored', 'tight', 'rusty', 'oval', 'worn'],
  ream: ['worn', 'tight', 'oval', 'loose'],
  chrome: ['rusty', 'pitted', 'flaking', 'dirty', 'worn', 'scored', 'dented', 'burnt'],
  'line-tank': ['rusty', 'leaking', 'split', 'pitted', 'dirty'],
  remagnetise: ['weak'],
  upholster: ['split', 'perished', 'worn', 'missing', 'bodged'],
};

const conditionsOf = (said: readonly Chunk[]): Condition[] =>
  said
    .filter((chunk): chunk is ChunkOf<'condition'> => chunk.kind === 'condition')
    .map(({ condition }) => condition);

const isDecision = (chunk: Chunk): boolean => chunk.kind === 'remedy' || chunk.kind === 'process';

/** Said to be all right, or only to be without some fault. */
export const settled = (clause: Clause): boolean =>
  !clause.said.some(isDecision) &&
  (conditionsOf(clause.said).length > 0
    ? conditionsOf(clause.said).every((condition) => condition === 'good')
    : clause.said.some((chunk) => chunk.kind === 'denial'));

export const undecided = (clause: Clause): boolean =>
  clause.mentions.length > 0 &&
  !clause.said.some(isDecision) &&
  conditionsOf(clause.said).some((condition) => condition !== 'good');

/** "chain stretched and sprocket hooked, new ones wanted": single things told of last, one by one, that wait for a decision. */
export function waiting(joined: readonly Clause[]): Clause[] {
  const single = (clause: Clause): boolean =>
    undecided(clause) &&
    clause.mentions.length === 1 &&
    clause.mentions.every(({ part, count }) => part !== null && !part.plural && count === null);
  const before = joined.findLastIndex((clause) => !single(clause));
  return joined.slice(before + 1);
}

const KEEPS = /^(keep)$/;

/**
 * Which of the clauses before it a decision that names nothing is about: the last one, unless that is all right and an
 * earlier fault waits for a decision ("bush worn, pin fine. Replace it"); `focus` is what was spoken of since.
 */
export function decidedOf(
  joined: readonly Clause[],
  said: readonly Chunk[],
  focus: Clause | undefined,
): Clause | undefined {
  const before = joined.at(-1);
  if (before === undefined) return undefined;
  if (focus !== undefined) return focus;
  const decisions = said.filter(isDecision);
  const keeps = decisions.every((chunk) => chunk.kind === 'remedy' && KEEPS.test(chunk.remedy));
  if (decisions.length === 0 || keeps || conditionsOf(said).length > 0 || !settled(before)) return before;
  return joined.findLast(undecided) ?? before;
}

/** Whether a work would be done for one of these faults. */
const cures = (process: Process, faults: readonly Condition[]): boolean =>
  CURES[process]?.some((fault) => faults.includes(fault)) ?? true;

const TOLD = /^(remedy|process|supplier|date|money)$/;

/** "footrest bent and its rubber perished, straighten it": the work goes to the thing whose fault it is done for. */
export function curesFirst(clauses: readonly Clause[]): Clause[] {
  const out = clauses.map((clause) => ({ ...clause, said: [...clause.said] }));
  out.forEach((clause, at) => {
    const faults = conditionsOf(clause.said).filter((condition) => condition !== 'good');
    if (faults.length === 0) return;
    for (const chunk of clause.said.slice(clause.fore)) {
      if (chunk.kind !== 'process' || cures(chunk.process, faults)) continue;
      const other = out.findLast(
        (one, index) =>
          index < at &&
          undecided(one) &&
          CURES[chunk.process] !== undefined &&
          cures(chunk.process, conditionsOf(one.said)),
      );
      if (other === undefined) continue;
      const moved = clause.said
        .slice(clause.said.indexOf(chunk))
        .filter((one) => one === chunk || TOLD.test(one.kind));
      other.said.push(...moved);
      clause.said = clause.said.filter((one) => !moved.includes(one));
    }
  });
  return out;
}
