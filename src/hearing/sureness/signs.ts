import type { ItemReading } from '../reading.js';
import type { Chunk } from '../tagging/chunk.js';
import { bearer, carriers, meaningOf, told, type Field } from './evidence.js';
import { isRare, ownStretch, sentenceAt, within, type Span, type Surroundings } from './surroundings.js';

/** What speaks for or against a field, each from 0 to 1. */
export type Signs = Record<string, number>;

const share = (count: number, most: number): number => Math.min(count, most) / most;
const when = (condition: boolean): number => (condition ? 1 : 0);

const HEDGES =
  /^(if|or|unless|maybe|perhaps|might|may|could|depends|depending|probably|possibly|think|reckon|guess|suppose|seems|unsure|whether|otherwise|would|should|wonder|hope|hopefully)$/;
const TURNS =
  /^(but|though|although|however|except|instead|rather|only|while|whereas|yet|still|because|since|so)$/;
const PEOPLE = /^(he|she|they|he's|she's|they're|him|her|them|his|their)$/;

const wordsIn = ({ tokens }: Surroundings, span: Span): string[] =>
  tokens.slice(span.from, span.to).map((token) => token.word);
const anyIn = (around: Surroundings, span: Span, pattern: RegExp): number =>
  when(wordsIn(around, span).some((word) => pattern.test(word)));
const kinds = (span: Span, around: Surroundings, kind: Chunk['kind']): number =>
  within(span, around.chunks).filter((chunk) => chunk.kind === kind).length;

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
    people: when(tokens.some((token) => PEOPLE.test(token.word))),
    colon: when(tokens.some((token) => token.text === ':' || token.text === '(')),
  };
}

/** What holds for all fields of an item. */
export function itemSigns(around: Surroundings, at: number): Signs {
  const item = around.items[at];
  const anchor = around.anchors[at] ?? null;
  if (item === undefined) return {};
  const whole = { from: 0, to: around.tokens.length };
  const own = anchor === null ? whole : ownStretch(around, anchor);
  const sentence = anchor === null ? whole : sentenceAt(around, anchor.from);
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
    beside: anchor === null ? 0 : besideStray(around, anchor),
    bare: when(isBare(item)),
    full: share(fullness(item), 6),
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

/** What holds for one field that something is told in. */
export function presentSigns(around: Surroundings, at: number, field: Field): Signs {
  const item = around.items[at];
  const anchor = around.anchors[at] ?? null;
  if (item === undefined) return {};
  const values = told(item, field);
  const bearers = values.map((value) => bearer(field, value, anchor, around.chunks));
  const signs = bearers.map((one) => (one === null ? null : bearing(around, at, field, one)));
  const worst = (name: string): number => Math.max(0, ...signs.map((one) => one?.[name] ?? 0));
  const telling = carriers(field, around.chunks);
  return {
    unsupported: when(bearers.includes(null)),
    valued: share(values.length - 1, 2),
    rivals: share(new Set(telling.map(meaningOf)).size - values.length, 2),
    ...Object.fromEntries(BEARING.map((name) => [name, worst(name)])),
    ...valueSigns(item, field),
  };
}

const BEARING = [
  'far',
  'before',
  'acrossStop',
  'acrossComma',
  'acrossThing',
  'othersNearer',
  'shared',
  'senses',
  'besideStrayWord',
  'mended',
];

/** How the words that tell a value stand to the name of the thing. */
function bearing(around: Surroundings, at: number, field: Field, chunk: Chunk): Signs {
  const anchor = around.anchors[at] ?? null;
  const span =
    anchor === null ? chunk : { from: Math.min(anchor.to, chunk.to), to: Math.max(anchor.from, chunk.from) };
  const gap = anchor === null ? 0 : Math.max(0, span.to - span.from);
  const between = anchor === null ? [] : within(span, around.chunks);
  const count = (kind: Chunk['kind']): number => between.filter((one) => one.kind === kind).length;
  const apart = (other: Chunk | null): number =>
    other === null ? Infinity : Math.max(other.from - chunk.to, chunk.from - other.to, 0);
  const value = meaningOf(chunk);
  return {
    far: share(gap, 10),
    before: when(anchor !== null && chunk.to <= anchor.from),
    acrossStop: when(around.stops.some((stop) => stop >= span.from && stop < span.to)),
    acrossComma: share(count('break') + count('and'), 3),
    acrossThing: share(count('part') + count('item'), 2),
    othersNearer: when(around.anchors.some((other) => other !== anchor && apart(other) < apart(anchor))),
    shared: when(around.items.some((other, index) => index !== at && told(other, field).includes(value))),
    senses: when((chunk.or ?? []).length > 0),
    besideStrayWord: when(around.strays.some((stray) => stray.to === chunk.from || stray.from === chunk.to)),
    mended: when(around.tokens.slice(chunk.from, chunk.to).some((token) => token.repaired === true)),
  };
}

/** Values that are seldom right beside one another, or seldom right at all. */
function valueSigns(item: ItemReading, field: Field): Signs {
  const { act, remedy, conditions } = item;
  const sound = conditions.includes('good');
  return {
    ...(field === 'act' || field === 'outcome' ? { [`is ${act}`]: 1 } : {}),
    ...(field === 'remedy' && remedy !== null ? { [`is ${remedy}`]: 1 } : {}),
    ...(field === 'conditions' ? { good: when(sound) } : {}),
    clash: when(
      (sound && remedy !== null && remedy !== 'keep') ||
        (remedy === 'keep' && conditions.length > 0 && !sound),
    ),
    undecided: when(act === 'finding' && remedy === null && item.supplier !== null),
  };
}

/** What holds for one field that nothing is told in. */
export function absentSigns(around: Surroundings, at: number, field: Field): Signs {
  const item = around.items[at];
  const anchor = around.anchors[at] ?? null;
  if (item === undefined) return {};
  const telling = carriers(field, around.chunks);
  const whole = { from: 0, to: around.tokens.length };
  const own = anchor === null ? whole : ownStretch(around, anchor);
  const sentence = anchor === null ? whole : sentenceAt(around, anchor.from);
  return {
    said: when(telling.length > 0),
    saidOwn: when(within(own, telling).length > 0),
    saidSentence: when(within(sentence, telling).length > 0),
    saidLost: when(telling.some((chunk) => around.lost.includes(chunk))),
    neighbour: when(around.items.some((other, index) => index !== at && told(other, field).length > 0)),
    next: when((around.items[at + 1] === undefined ? [] : told(around.items[at + 1]!, field)).length > 0),
    ownFigures: when(within(own, around.figures).length > 0),
    [`at ${item.act}`]: 1,
    decided: when(item.remedy !== null),
    faulty: when(item.conditions.length > 0 && !item.conditions.includes('good')),
    hasProcess: when(item.processes.length > 0),
    hasSupplier: when(item.supplier !== null),
    hasCost: when(item.cost !== null),
  };
}
