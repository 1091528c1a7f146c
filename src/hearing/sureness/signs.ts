import type { ItemReading } from '../reading.js';
import type { Chunk } from '../tagging/chunk.js';
import { isRare, within, type Span, type Surroundings } from './surroundings.js';

/** What speaks for or against a field, each from 0 to 1. */
export type Signs = Record<string, number>;
export type Sign = readonly [name: string, value: number];

/** The signs that say something. */
export function speaking(signs: Signs): Sign[] {
  const found: Sign[] = [];
  for (const name in signs) {
    const value = signs[name] ?? 0;
    if (value !== 0) found.push([name, value]);
  }
  return found;
}

/** How much of `most` there is. */
export const share = (count: number, most: number): number => Math.max(0, Math.min(count, most)) / most;
export const when = (condition: boolean): number => (condition ? 1 : 0);

const HEDGES = new Set(
  'if or unless maybe perhaps might may could depends depending probably possibly think reckon guess suppose seems unsure whether otherwise would should wonder hope hopefully'.split(
    ' ',
  ),
);
const TURNS = new Set(
  'but though although however except instead rather only while whereas yet still because since so'.split(
    ' ',
  ),
);
const PEOPLE = new Set('he she they him her them his their'.split(' '));
const BUT = new Set('but except only just rest other others'.split(' '));
const ALL = new Set('all both everything lot each'.split(' '));
const SAYS = new Set('say says said rang reckon reckons promised promises told'.split(' '));
const VERDICT = new Set(
  'done working works pass passes passed fail failed sweet short rest lot complete fine spark there'.split(
    ' ',
  ),
);
const THESE = new Set('it them those one these'.split(' '));

const MEANING = new Set<Chunk['kind']>([
  'part',
  'item',
  'act',
  'condition',
  'remedy',
  'process',
  'supplier',
  'owner',
  'machine',
  'money',
  'date',
  'count',
  'place',
  'measure',
  'stored',
]);

const anyIn = ({ tokens }: Surroundings, span: Span, words: ReadonlySet<string>): number =>
  when(tokens.some(({ word }, at) => at >= span.from && at < span.to && words.has(word)));
const kinds = (span: Span, { chunks }: Surroundings, kind: Chunk['kind']): number =>
  chunks.reduce(
    (count, chunk) =>
      chunk.kind === kind && chunk.from >= span.from && chunk.to <= span.to ? count + 1 : count,
    0,
  );

/** What holds for all fields of a message. */
export function messageSigns(around: Surroundings): Signs {
  const { tokens, items, strays, lost, strangers, figures, chunks, stops } = around;
  const things = chunks.filter((chunk) => chunk.kind === 'part' || chunk.kind === 'item');
  return {
    long: share(tokens.length, 40),
    short: when(tokens.length <= 4),
    several: share(items.length - 1, 4),
    strayShare: Math.min(1, (3 * strays.length) / Math.max(6, tokens.length)),
    strangers: share(strangers.length, 2),
    figures: share(figures.length, 2),
    lost: share(lost.length, 4),
    stops: share(stops.length, 3),
    spoken: when(around.spoken),
    repaired: share(tokens.filter((token) => token.repaired === true).length, 2),
    corrected: when(chunks.some((chunk) => chunk.kind === 'correction')),
    thingsUnread: share(things.length - items.filter((item) => item.part !== null).length, 3),
    itemsUnnamed: share(items.filter((item) => item.part === null && item.item === null).length, 2),
    people: when(tokens.some((token) => PEOPLE.has(token.word))),
    asking: when(
      /^(what|where|when|how|who|which|why|is|are|did|do|does|has|have|can|any)$/.test(tokens[0]?.word ?? ''),
    ),
    mark: when(tokens.some((token) => token.text === '?' || token.text === '!')),
    opening: when(!chunks.slice(0, 4).some((chunk) => MEANING.has(chunk.kind))),
    or: when(tokens.some((token) => token.word === 'or')),
    but: when(tokens.some((token) => BUT.has(token.word))),
    all: when(tokens.some((token) => ALL.has(token.word))),
    capital: when(
      strays.some((stray) => stray.from > 0 && /^\p{Lu}\p{Ll}/u.test(tokens[stray.from]?.text ?? '')),
    ),
    whom: when(strays.some((stray) => /^(from|to|at|with|by|via)$/.test(tokens[stray.from - 1]?.word ?? ''))),
    says: when(tokens.some((token) => SAYS.has(token.word))),
    verdict: when(tokens.some((token) => VERDICT.has(token.word))),
    sideWord: when(
      chunks.some(
        (chunk) =>
          chunk.kind !== 'place' &&
          /^(back|front|top|bottom|near|off|left|right|inside|outside|end|ends|side|sides)$/.test(
            tokens[chunk.from]?.word ?? '',
          ),
      ),
    ),
    toDo: when(tokens.some((token, at) => THESE.has(token.word) && strays.some((stray) => stray.to === at))),
    splitCounts: when(chunks.filter((chunk) => chunk.kind === 'count').length > 1 && things.length < 2),
    colon: when(tokens.some((token) => token.text === ':' || token.text === '(')),
  };
}

/** What holds for all fields of an item. */
export function itemSigns(around: Surroundings, at: number): Signs {
  const item = around.items[at];
  const anchor = around.anchors[at] ?? null;
  const reach = around.reaches[at];
  if (item === undefined || reach === undefined) return {};
  const { own, sentence } = reach;
  const twin = around.items.some((other, index) => index !== at && other.part === item.part);
  return {
    unanchored: when(anchor === null),
    nameless: when(item.part === null),
    twin: when(twin && item.part !== null),
    first: when(at === 0),
    guessed: when(anchor?.kind === 'part' && !anchor.sure),
    oneWord: when(anchor !== null && anchor.to - anchor.from === 1),
    joined: when(anchor?.kind === 'part' && item.part !== anchor.part),
    ambiguous: when((anchor?.or ?? []).length > 0),
    ownStrays: share(within(own, around.strays).length, 3),
    ownRare: share(
      within(own, around.strays).filter((stray) => isRare(around.tokens[stray.from]?.word ?? '')).length,
      2,
    ),
    ownLost: share(within(own, around.lost).length, 2),
    sentenceStrays: share(within(sentence, around.strays).length, 5),
    crowded: share(kinds(sentence, around, 'part') - 1, 4),
    ownActs: share(kinds(own, around, 'act'), 2),
    hedged: anyIn(around, sentence, HEDGES),
    turned: anyIn(around, sentence, TURNS),
    denied: when(kinds(own, around, 'denial') > 0),
    pointed: when(kinds(own, around, 'pronoun') > 0),
    ...leads(around, anchor, own),
    beside: anchor === null ? 0 : besideStray(around, anchor),
    opensBare: when(anchor === null && around.items.length === 1),
    named: when(item.part !== null),
    bare: when(isBare(item)),
    full: share(fullness(item), 6),
  };
}

/** What the name of an item stands beside. */
export function nameCompany(around: Surroundings, at: number): Sign[] {
  const anchor = around.anchors[at] ?? null;
  return anchor === null ? [] : company(around, anchor, 'name').map((name): Sign => [name, 1]);
}

/** What stands right before and after some words: the kinds of things, not the words. */
export function company(
  around: Surroundings,
  span: Span,
  as: 'name' | 'told',
): [before: string, after: string] {
  const before = around.chunks.findLast((chunk) => chunk.to <= span.from);
  const after = around.chunks.find((chunk) => chunk.from >= span.to);
  return [`${as} after ${kindIn(around, before)}`, `${as} before ${kindIn(around, after)}`];
}

function kindIn({ tokens }: Surroundings, chunk: Chunk | undefined): string {
  if (chunk === undefined) return 'edge';
  if (chunk.kind === 'break') return chunk.strength === 'full' ? 'stop' : 'comma';
  if (chunk.kind === 'word') return tokens[chunk.from]?.kind === 'number' ? 'figure' : 'word';
  return chunk.kind;
}

/** Words that nothing was made of before and after the name; of a recogniser they may be what the thing was called. */
function leads({ strays, chunks, spoken }: Surroundings, anchor: Chunk | null, own: Span): Signs {
  if (anchor === null) return {};
  const mine = within(own, strays);
  const before = mine.filter((stray) => stray.to <= anchor.from);
  const of = chunks.findLast((chunk) => chunk.kind === 'of' && chunk.to <= anchor.from);
  return {
    strayBefore: when(before.length > 0),
    strayAfter: when(mine.length > before.length),
    headedByStray: when(of !== undefined && strays.some((stray) => stray.to === of.from)),
    spokenStray: when(spoken && mine.length > 0),
    spokenStrayBefore: when(spoken && before.length > 0),
    spokenBeside: when(spoken && mine.some((stray) => stray.to === anchor.from || stray.from === anchor.to)),
  };
}

/** A word that nothing was made of, right before or after the name of the thing. */
const besideStray = ({ strays }: Surroundings, anchor: Chunk): number =>
  when(strays.some((stray) => stray.to === anchor.from || stray.from === anchor.to));

const fullness = (item: ItemReading): number =>
  item.conditions.length +
  item.processes.length +
  item.readings.length +
  [item.remedy, item.supplier, item.stored, item.cost, item.due, item.outcome].filter((one) => one !== null)
    .length;

const isBare = (item: ItemReading): boolean => fullness(item) === 0 && item.act === 'finding';
