import type { Act, Outcome } from '../reading.js';
import type { Chunk } from '../tagging/chunk.js';
import type { Token } from '../text/tokens.js';
import { wordAt } from '../text/word-at.js';
import type { Element } from './mentions.js';

type Done = { act: Act; outcome?: Outcome };

/** A verb and the word that ends it, with the thing between them: "took the dynamo off", "dropped it off at". */
const SPLIT: [verb: RegExp, particle: RegExp, done: Done][] = [
  [
    /^(took|taken|had|got|pulled|whipped|lifted|knocked|drifted|pressed|popped|drove|tapped|prised|slid|have|has)$/,
    /^(off|out|apart|down)$/,
    { act: 'stripped' },
  ],
  [
    /^(took|taken|ran|run|carried|sent|posted|drove|shipped|popped|nipped|whizzed|dropped)$/,
    /^(to|over|round|down|in|up)$/,
    { act: 'sent' },
  ],
  [
    /^(dropped|left|handed|gave|posted|sent|packed|shipped|given|mailed)$/,
    /^(off|at|with|to|in|round|over|away|out)$/,
    { act: 'sent' },
  ],
  [/^(picked|collected|fetched|pick)$/, /^(up|from|back)$/, { act: 'back' }],
  [/^(got|had|brought|have)$/, /^(back)$/, { act: 'back' }],
  [/^(brought|fetched)$/, /^(in|round|over|along|down|home)$/, { act: 'back' }],
  [/^(got|had|bought|picked)$/, /^(off|from)$/, { act: 'ordered' }],
  [/^(sent)$/, /^(back)$/, { act: 'back', outcome: 'refused' }],
  [
    /^(put|got|popped|slid|pressed|bolted|knocked|drifted|tapped|screwed|dropped|fitted|putting|built|did|done|buttoned)$/,
    /^(on|in|back|together|up)$/,
    { act: 'fitted' },
  ],
];

const PLAIN: ReadonlyMap<string, Done> = new Map([
  ['off', { act: 'stripped' }],
  ['out', { act: 'stripped' }],
  ['apart', { act: 'stripped' }],
  ['in', { act: 'fitted' }],
  ['on', { act: 'fitted' }],
  ['back', { act: 'back' }],
]);

const isMention = (element: Element | undefined): boolean => element?.kind === 'mention';

const wordOf = (element: Element | undefined, tokens: readonly Token[]): string =>
  element === undefined || element.kind === 'mention' || element.to !== element.from + 1
    ? ''
    : wordAt(tokens, element.from);

/** Nothing that a preposition would lead to follows: the particle ends its phrase. */
function ends(elements: readonly Element[], at: number, tokens: readonly Token[]): boolean {
  const next = elements[at];
  if (next === undefined) return true;
  // "the plate is off the shoes are soaked"
  if (
    next.kind === 'mention' &&
    elements[at + 1]?.kind === 'copula' &&
    elements[at + 2]?.kind === 'condition'
  )
    return true;
  if (next.kind === 'mention')
    return (
      tokens[next.from - 1]?.kind !== 'word' ||
      !/^(the|a|an|my|his|this|that|our|its|both|new)$/.test(wordAt(tokens, next.from - 1))
    );
  if (next.kind === 'word')
    return /^(now|again|today|yesterday|already|finally|well|first|last|then|but|at|so|because|this|ready|for)$/.test(
      next.word,
    );
  if (next.kind === 'place')
    return elements[at + 1]?.kind === 'measure' || elements[at + 1]?.kind === 'count';
  // "the crank's on 40 thou"
  if (next.kind === 'measure' && /^(on|in)$/.test(wordAt(tokens, next.from - 1))) return false;
  // "both levers on this morning"
  const then = wordAt(tokens, next.from + 1);
  if (wordAt(tokens, next.from) === 'this' && /^(morning|afternoon|evening|week)$/.test(then)) return true;
  // "odd springs in it"
  if (next.kind === 'pronoun')
    return next.refers !== 'last' || !/^(in|on|off)$/.test(wordAt(tokens, next.from - 1));
  return !['article', 'supplier', 'machine', 'stored', 'of', 'count', 'owner'].includes(next.kind);
}

const act = (from: number, to: number, done: Done): Chunk => ({
  kind: 'act',
  from,
  to,
  act: done.act,
  outcome: done.outcome ?? null,
});

/** "saddle off", "wheel back on", "the clutch is in": a particle after the thing itself tells what was done. */
function afterMention(
  elements: readonly Element[],
  at: number,
  tokens: readonly Token[],
): { act: Chunk; skip: number } | null {
  let next = at + 1;
  if (elements[next]?.kind === 'copula' || /^(now|all|both|just)$/.test(wordOf(elements[next], tokens)))
    next += 1;
  const first = elements[next];
  const word = wordOf(first, tokens);
  const done = PLAIN.get(word);
  if (first === undefined || first.kind === 'mention' || done === undefined) return null;
  const second = wordOf(elements[next + 1], tokens);
  if (word === 'back' && /^(on|in|together)$/.test(second) && ends(elements, next + 2, tokens))
    return { act: act(first.from, first.to + 1, { act: 'fitted' }), skip: next + 2 - at };
  // "gearbox apart on the Quenby"
  const ofMachine = /^(off|out|apart)$/.test(word) && elements[next + 1]?.kind === 'machine';
  if (
    !ofMachine &&
    !ends(elements, next + 1, tokens) &&
    !(word === 'back' && /^(from|at|today|this)$/.test(second))
  )
    return null;
  return { act: act(first.from, first.to, done), skip: next + 1 - at };
}

/** The verb's particle, further on in the same breath. */
function splitVerb(
  elements: readonly Element[],
  at: number,
  tokens: readonly Token[],
): { act: Chunk; particle: number } | null {
  const verb = elements[at];
  const word = wordOf(verb, tokens);
  if (verb === undefined || verb.kind === 'mention' || word === '') return null;
  const candidates = SPLIT.filter(([verbs]) => verbs.test(word));
  if (candidates.length === 0) return null;
  let things = 0;
  for (let next = at + 1; next < Math.min(elements.length, at + 9); next += 1) {
    const element = elements[next];
    if (element === undefined || (element.kind === 'break' && element.strength === 'full')) return null;
    if (isMention(element) || element.kind === 'pronoun') things += 1;
    const particle = wordOf(element, tokens);
    const following = elements[next + 1];
    const towards = /^(to|at|with)$/.test(wordOf(following, tokens)) ? elements[next + 2] : following;
    const fitting = candidates.filter(([, particles]) => particles.test(particle));
    // "got two seals off the autojumble" buys them; "got the seals off" does not.
    const found =
      fitting.find(([, , { act: told }]) => (told === 'ordered') === (towards?.kind === 'supplier')) ??
      fitting[0];
    if (found === undefined || things === 0) continue;
    const [, , done] = found;
    if (done.act === 'ordered' && (towards?.kind !== 'supplier' || word === 'picked')) continue;
    if (done.act === 'sent' && !/^(off|away|out)$/.test(particle) && towards?.kind !== 'supplier') continue;
    if (done.act === 'fitted' && (following?.kind === 'stored' || following?.kind === 'supplier')) continue;
    const figure = wordOf(following, tokens) === 'to' && /^\d/.test(wordOf(elements[next + 2], tokens));
    const into = word === 'put' && /^(in|on)$/.test(particle) && following?.kind === 'mention';
    if (done.act === 'fitted' && !figure && !into && !ends(elements, next + 1, tokens) && particle !== 'back')
      continue;
    if (done.act === 'stripped' && /^(at|to|with|in|round)$/.test(wordOf(following, tokens))) continue;
    return { act: act(verb.from, verb.to, done), particle: next };
  }
  return null;
}

/** Turns verbs with a particle apart from them, and particles alone, into acts. */
export function particleActs(elements: readonly Element[], tokens: readonly Token[]): Element[] {
  const out: Element[] = [];
  const dropped = new Set<number>();
  for (let at = 0; at < elements.length; at += 1) {
    const element = elements[at];
    if (element === undefined || dropped.has(at)) continue;
    const split = splitVerb(elements, at, tokens);
    if (split !== null) {
      out.push(split.act);
      dropped.add(split.particle);
      continue;
    }
    out.push(element);
    const joined = element.kind === 'and' ? PLAIN.get(wordOf(elements[at + 1], tokens)) : undefined;
    const afterAnd = elements[at + 1];
    if (
      joined !== undefined &&
      afterAnd !== undefined &&
      afterAnd.kind !== 'mention' &&
      ends(elements, at + 2, tokens)
    ) {
      out.push(act(afterAnd.from, afterAnd.to, joined));
      dropped.add(at + 1);
      continue;
    }
    if (!isMention(element)) continue;
    const after = afterMention(elements, at, tokens);
    if (after === null) continue;
    out.push(after.act);
    for (let index = at + 1; index < at + after.skip; index += 1) dropped.add(index);
  }
  return out;
}
