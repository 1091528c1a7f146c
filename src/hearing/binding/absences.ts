import type { Chunk } from '../tagging/chunk.js';
import type { Token } from '../text/tokens.js';
import { wordAt } from '../text/word-at.js';
import type { Clause } from './clause-state.js';

/** Said of a thing with nothing else, these tell that it isn't there: "no tab washer under it", "without its cap". */
const ABSENT = /^(no|without|minus|lacking|zero)$/;

const BETWEEN = /^(the|its|their|his|any|a|an|proper|sign|of|such)$/;

/** Something that lets "no" deny another thing than the part: a fault not found, work not wanted. */
const tells = (chunk: Chunk): boolean =>
  /^(condition|remedy|process|act|measure|money|date|supplier)$/.test(chunk.kind);

/** What a clause says, and that its thing is missing where it only says that there is none. */
export function withAbsence(clause: Clause, tokens: readonly Token[]): Chunk[] {
  const mention = clause.mentions[0];
  if (clause.mentions.length !== 1 || mention?.part == null || clause.said.some(tells)) return clause.said;
  const denial = clause.said.find((chunk) => chunk.kind === 'denial' && chunk.to <= mention.from);
  if (denial === undefined || !ABSENT.test(wordAt(tokens, denial.to - 1))) return clause.said;
  const near = tokens
    .slice(denial.to, mention.from)
    .every(({ word, kind }) => kind !== 'mark' && BETWEEN.test(word));
  if (!near) return clause.said;
  return [...clause.said, { kind: 'condition', condition: 'missing', from: denial.from, to: denial.to }];
}
