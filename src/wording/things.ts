import type { Fault, Item, JobState, Step } from '../job/state.js';
import { lexicon } from '../trade/lexicon/load.js';
import type { Place } from '../trade/terms.js';
import type { Speaker } from './answer.js';
import { joined, quoted } from './lines.js';

type Thing = Pick<Item, 'part' | 'called' | 'place' | 'count'>;

/** A thing without its number: 'front fork stanchions', '40 spokes', 'both footrests'; what it was called where the trade has no name for it. */
export function thingName(item: Thing, speaker: Speaker): string {
  const { part, place, count } = item;
  if (part === null) return (item.called === null ? '' : speaker.said(item.called)) || 'something not named';
  const many = count !== null && count > 1;
  const name = many ? plural(part) : part;
  const words = placeWords(place, name);
  return [many && count > 2 ? String(count) : '', words, name].filter((word) => word !== '').join(' ');
}

const SIDES: readonly (readonly Place[])[] = [
  ['left', 'right'],
  ['front', 'rear'],
  ['upper', 'lower'],
  ['inner', 'outer'],
  ['inlet', 'exhaust'],
  ['drive-side', 'timing-side'],
];

/** Places in front of the name, both sides of a pair joined; a place that the name has already is not said again. */
function placeWords(place: readonly Place[], name: string): string {
  const said = place.filter((each) => !name.split(' ').includes(each));
  const pair = SIDES.find((sides) => sides.every((side) => said.includes(side)));
  if (!pair) return said.join(' ');
  return [...said.filter((each) => !pair.includes(each)), joined([...pair])].join(' ');
}

/** More than one of a part, by the lexicon where its plural is irregular. */
export function plural(part: string): string {
  const irregular = lexicon.byName(part)?.plural;
  if (irregular !== undefined) return irregular;
  if (/(ss|x|ch|sh)$/.test(part)) return `${part}es`;
  if (/s$/.test(part)) return part;
  return /[^aeiou]y$/.test(part) ? `${part.slice(0, -1)}ies` : `${part}s`;
}

/** A thing with its number: 'front fork stanchions (12)'. */
export function itemName(item: Item, speaker: Speaker): string {
  return `${thingName(item, speaker)} (${item.number})`;
}

/** An item of a job by its number, named. */
export function itemCalled(state: JobState, number: number, speaker: Speaker): string {
  const item = state.items[number];
  return item ? itemName(item, speaker) : `item ${number}`;
}

/** A step of the build order: 'Fit the fork yokes'. */
export function stepName(step: Step, speaker: Speaker): string {
  const { kind, text } = step.name;
  return (kind === 'template' ? text : speaker.said(text)) || 'a step added at the bench';
}

/** A fault in the words it was told in. */
export function faultName({ number, text }: Fault, speaker: Speaker): string {
  const words = quoted(speaker.said(text));
  return words === '' ? `fault ${number}` : `fault ${number}: ${words}`;
}

/** Where a thing lies: 'in bag 14', 'on shelf 3'. */
export function storedIn(stored: string): string {
  if (/^(in|on|under|behind|at|with|by|beside|next)\b/i.test(stored)) return stored;
  return /^(the )?(top |bottom |middle )?(shelf|shelves|rack|hook|wall|bench|floor|nail|peg)/i.test(stored)
    ? `on ${stored}`
    : `in ${stored}`;
}
