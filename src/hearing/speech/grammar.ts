/** What a rule can be made of: words as they are, another rule, or a choice with a weight for each. */
type Node =
  | { readonly kind: 'words'; readonly words: readonly string[] }
  | { readonly kind: 'rule'; readonly name: string }
  | { readonly kind: 'chain'; readonly parts: readonly Node[] }
  | { readonly kind: 'choice'; readonly options: readonly Node[]; readonly upTo: readonly number[] };

/** Rules by name, each a list of alternatives in the notation of patterns.yaml. */
export type Rules = Readonly<Record<string, readonly string[]>>;
/** Lists of plain phrases by name, dealt like a shuffled pack: each phrase comes as often as any other. */
export type PhraseLists = Readonly<Record<string, readonly string[]>>;

/** A rule names a rule or list that there isn't. */
export class GrammarError extends Error {
  override readonly name = 'GrammarError';
}

/**
 * Makes `count` sentences (lists of words) from the rule `start`, the same ones each time: what looks like chance is a
 * fixed sequence.
 * @throws GrammarError where a rule names what isn't there
 */
export function makeSentences(rules: Rules, lists: PhraseLists, start: string, count: number): string[][] {
  const next = sequence();
  const nodes = new Map(Object.entries(rules).map(([name, options]) => [name, choiceOf(options)]));
  const packs = new Map(Object.entries(lists).map(([name, phrases]) => [name, deal(phrases, next)]));

  function say(node: Node, into: string[]): void {
    switch (node.kind) {
      case 'words':
        into.push(...node.words);
        return;
      case 'chain':
        for (const part of node.parts) say(part, into);
        return;
      case 'choice': {
        const at = next() * (node.upTo.at(-1) ?? 0);
        const option = node.options[node.upTo.findIndex((limit) => at < limit)];
        if (option) say(option, into);
        return;
      }
      case 'rule': {
        const pack = packs.get(node.name);
        if (pack) return void into.push(...pack());
        const rule = nodes.get(node.name);
        if (!rule) throw new GrammarError(`there is no rule or list {${node.name}}`);
        say(rule, into);
      }
    }
  }

  return Array.from({ length: count }, () => {
    const words: string[] = [];
    say({ kind: 'rule', name: start }, words);
    return joined(words);
  });
}

/** "'s" and the like belong to the word before. */
function joined(words: readonly string[]): string[] {
  const out: string[] = [];
  for (const word of words) {
    if (!word.startsWith("'")) out.push(word);
    else if (out.length > 0) out.push(`${out.pop()}${word}`);
  }
  return out;
}

function choiceOf(options: readonly string[]): Node {
  let sum = 0;
  const read = options.map((option) => {
    const [, text = '', weight = '1'] = /^(.*?)(?: \*(\d+))?$/.exec(option) ?? [];
    sum += Number(weight);
    return { node: chainOf(text), upTo: sum };
  });
  return { kind: 'choice', options: read.map(({ node }) => node), upTo: read.map(({ upTo }) => upTo) };
}

/** Slots are split at spaces; a bracket keeps its own together. */
function chainOf(text: string): Node {
  const slots = text.match(/\([^)]*\)|\S+/g) ?? [];
  return { kind: 'chain', parts: slots.map(slotOf) };
}

function slotOf(slot: string): Node {
  const optional = slot.startsWith('(');
  const options = (optional ? slot.slice(1, -1) : slot).split('|').map((words): Node => {
    const parts = words.split(/[_ ]/).map(wordOf);
    return { kind: 'chain', parts };
  });
  const all = optional ? [...options, ...options.map((): Node => ({ kind: 'words', words: [] }))] : options;
  return { kind: 'choice', options: all, upTo: all.map((_, index) => index + 1) };
}

function wordOf(word: string): Node {
  const name = /^\{(.+)\}$/.exec(word)?.[1];
  return name === undefined ? { kind: 'words', words: [word] } : { kind: 'rule', name };
}

/** Gives a list's phrases, as words, in a mixed order, all of them before any again. */
function deal(phrases: readonly string[], next: () => number): () => readonly string[] {
  const pack = phrases.map((phrase) => phrase.split(' '));
  let at = pack.length;
  return () => {
    if (at === pack.length) {
      at = 0;
      for (let last = pack.length - 1; last > 0; last -= 1) {
        const other = Math.floor(next() * (last + 1));
        [pack[last], pack[other]] = [pack[other] ?? [], pack[last] ?? []];
      }
    }
    at += 1;
    return pack[at - 1] ?? [];
  };
}

/** Numbers from 0 up to 1: Mulberry32, a mixing of a 32-bit counter. */
function sequence(): () => number {
  let state = 1;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
}
