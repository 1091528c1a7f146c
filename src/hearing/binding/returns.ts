import type { Chunk } from '../tagging/chunk.js';
import type { Token } from '../text/tokens.js';
import type { Clause } from './clause-state.js';

const cameBack = (chunk: Chunk): boolean =>
  chunk.kind === 'act' && chunk.act === 'back' && chunk.outcome !== 'part';

const sendsItBack = (chunk: Chunk, tokens: readonly Token[]): boolean =>
  chunk.kind === 'act' &&
  chunk.act === 'back' &&
  chunk.outcome === 'refused' &&
  tokens.slice(chunk.from, chunk.to).some(({ word }) => /^(it|them|that|those|they)$/.test(word));

const isWrong = (chunk: Chunk): boolean =>
  chunk.kind === 'condition' && /^(incorrect|missing|bodged)$/.test(chunk.condition);

const isStored = (chunk: Chunk): chunk is Chunk & { kind: 'stored' } => chunk.kind === 'stored';

/** "badges off and the knee pads, they're in bag 22": both are. */
export function keptTogether(clauses: readonly Clause[], tokens: readonly Token[]): Clause[] {
  const out = clauses.map((clause) => ({ ...clause }));
  out.forEach((clause, at) => {
    const before = out[at - 1];
    const stored = clause.said.find(isStored);
    if (before === undefined || stored === undefined || !clause.linked || clause.mentions.length === 0)
      return;
    const they = tokens.slice(Math.max(0, stored.from - 3), stored.from).some(({ word }) => word === 'they');
    const off = before.said.some((chunk) => chunk.kind === 'act' && chunk.act === 'stripped');
    if (they && off && !before.said.some(isStored)) before.said = [...before.said, stored];
  });
  return out;
}

/** "silencer came, wrong bracket, sending it back": what is wrong with it is why it goes back, no thing of its own. */
export function whyRefused(clauses: readonly Clause[], tokens: readonly Token[]): Clause[] {
  const out: Clause[] = [];
  for (const clause of clauses) {
    const before = out.at(-1);
    const why =
      clause.linked &&
      before?.said.some(cameBack) === true &&
      before.mentions.length === 1 &&
      clause.mentions.length === 1 &&
      clause.said.some((chunk) => sendsItBack(chunk, tokens)) &&
      clause.said.some(isWrong);
    if (why) out.splice(-1, 1, { ...before, said: [...before.said, ...clause.said] });
    else out.push(clause);
  }
  return out;
}
