import type { Act } from '../reading.js';
import type { Process, Remedy } from '../../trade/terms.js';
import type { Chunk, ChunkOf } from '../tagging/chunk.js';
import type { Token } from '../text/tokens.js';
import { wordAt, wordsBefore } from '../text/word-at.js';

export type Decision = { remedy: Remedy | null; processes: Process[]; sure: boolean };

const unique = <T>(values: readonly T[]): T[] => [...new Set(values)];

/** "I'll straighten it", "do it here": the shop does it. */
function byUs(said: readonly Chunk[], tokens: readonly Token[]): boolean {
  return said.some((chunk) => {
    if (chunk.kind !== 'process' && chunk.kind !== 'remedy') return false;
    const before = wordsBefore(tokens, chunk.from, 8);
    return (
      before.some(
        (word, index) =>
          /^(i|we)$/.test(word) &&
          /^('ll|can|will|shall|'ve|'m|could|should|have)$/.test(before[index + 1] ?? '') &&
          !/^(like|want|send|have|get)$/.test(before[index + 2] ?? ''),
      ) ||
      /^(here|myself|ourselves)$/.test(wordAt(tokens, chunk.to)) ||
      /^(here|myself|ourselves)$/.test(wordAt(tokens, chunk.to + 1))
    );
  });
}

/** "get it welded", "have the drum skimmed": done by somebody else. */
const byOthers = (said: readonly Chunk[], tokens: readonly Token[]): boolean =>
  said.some((chunk) => {
    if (chunk.kind !== 'process' || !/(ed|built|wound|ground)$/.test(wordAt(tokens, chunk.to - 1)))
      return false;
    const before = wordsBefore(tokens, chunk.from, 5);
    const get = before.findLastIndex((word) => /^(get|getting|have|having)$/.test(word));
    return get >= 0 && /^(it|them|that|those|the|this|both|him|her)$/.test(before[get + 1] ?? '');
  });

/** The supplier is only whom things come from. */
const bought = (said: readonly Chunk[], tokens: readonly Token[]): boolean =>
  said.every((chunk) => chunk.kind !== 'supplier' || /^(from|off)$/.test(tokens[chunk.from - 1]?.word ?? ''));

/** What was decided: the remedy said last; a process alone goes to whoever does it as a rule. */
export function decisionOf(said: readonly Chunk[], act: Act, tokens: readonly Token[]): Decision {
  const processes = unique(
    said
      .filter((chunk): chunk is ChunkOf<'process'> => chunk.kind === 'process')
      .map((chunk) => chunk.process),
  );
  const doers = said
    .filter((chunk): chunk is ChunkOf<'process'> => chunk.kind === 'process')
    .map((chunk) => chunk.doer);
  const remedies = said
    .filter((chunk): chunk is ChunkOf<'remedy'> => chunk.kind === 'remedy')
    .map((chunk) => chunk.remedy);
  const supplier = said.some((chunk) => chunk.kind === 'supplier');
  // 'Off, rusty, send it for chrome' decides as it takes off.
  const done = act !== 'finding' && act !== 'stripped';
  const ours = byUs(said, tokens);
  const choice = said.some(
    (chunk, at) =>
      (chunk.kind === 'remedy' || chunk.kind === 'process') &&
      at > 0 &&
      tokens[chunk.from - 1]?.word === 'or',
  );
  const last = remedies.includes('check')
    ? 'check'
    : remedies.includes('make')
      ? 'make'
      : (remedies.at(-1) ?? null);
  if (done) return { remedy: null, processes, sure: true };
  if (ours && (processes.length > 0 || last === 'repair' || last === null)) {
    if (last === null && processes.length === 0) return { remedy: null, processes, sure: true };
    return { remedy: last === null || last === 'clean' ? (last ?? 'repair') : last, processes, sure: true };
  }
  const hired = said.some(
    (chunk) => chunk.kind === 'supplier' && tokens[chunk.from - 1]?.word === 'by' && !chunk.speaks,
  );
  if (hired && processes.length > 0) return { remedy: 'send-out', processes, sure: true };
  if (remedies.includes('send-out') && !remedies.includes('replace'))
    return { remedy: 'send-out', processes, sure: true };
  // "wants derusting and lining, 85 at the paint man": whose work is named does it.
  const sentWith = supplier && processes.length > 0 && (last === 'clean' || last === 'repair');
  if (sentWith) return { remedy: 'send-out', processes, sure: false };
  if (last !== null) return { remedy: last, processes, sure: !choice };
  if (processes.length > 0) {
    if (byOthers(said, tokens)) return { remedy: 'send-out', processes, sure: supplier };
    if (supplier || doers.includes('out'))
      return { remedy: 'send-out', processes, sure: supplier || !doers.includes('either') };
    return {
      remedy: processes.every((one) => one === 'ultrasonic-clean') ? 'clean' : 'repair',
      processes,
      sure: false,
    };
  }
  // "rim rusty, to the plater by the 21st"
  const sending = said.some(
    (chunk) => chunk.kind === 'supplier' && /^(to|for)$/.test(tokens[chunk.from - 1]?.word ?? ''),
  );
  const faulty = said.some((chunk) => chunk.kind === 'condition');
  if (sending && faulty && !said.some((chunk) => chunk.kind === 'act'))
    return { remedy: 'send-out', processes, sure: true };
  if (
    supplier &&
    !said.some((chunk) => chunk.kind === 'act' || chunk.kind === 'date' || chunk.kind === 'money')
  )
    // Work goes to somebody, new things come from him: "oil seals from Hadley".
    return { remedy: bought(said, tokens) ? 'replace' : 'send-out', processes, sure: true };
  return { remedy: null, processes, sure: true };
}
