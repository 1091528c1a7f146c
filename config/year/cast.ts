import type { Person } from '../../bot/rehearsal/person.js';
import type { Rehearsal } from '../../bot/rehearsal/rehearsal.js';
import type { Dice } from './names.js';

export const MECHANIC_CHATS = [1001, 1002];

/** What suppliers of the play do: the word they are entered with, what is said to be done, and on which things. */
export const TRADES = [
  {
    word: 'chrome',
    works: 'Plating',
    said: 'send it for chrome',
    parts: ['handlebar', 'exhaust pipe', 'headlamp rim'],
  },
  {
    word: 'paint',
    works: 'Enamels',
    said: 'send it for paint',
    parts: ['petrol tank', 'toolbox', 'chainguard'],
  },
  { word: 'rewind', works: 'Rewinds', said: 'send it for a rewind', parts: ['magneto', 'dynamo'] },
  {
    word: 'reline',
    works: 'Linings',
    said: 'send it for relining',
    parts: ['front brake shoes', 'rear brake shoes'],
  },
] as const;

export const BOUGHT = [
  'clutch plates',
  'primary chain',
  'silencer',
  'wheel bearings',
  'throttle cable',
] as const;
export const CLEANED = ['carburettor', 'primary chaincase', 'timing cover'] as const;

export type Trade = (typeof TRADES)[number];

/** Somebody who may be written to: with a chat once they have taken their invitation, and until they are forgotten. */
export type Contact = { name: string; chat: Person | null; isForgotten: boolean };
export type SupplierRole = Contact & { trade: Trade | 'parts'; number: string };

/** 'Brambridge' of 'Mrs Brambridge' and of 'Brambridge Plating': it gives them away by itself. */
export const surname = ({ name }: Pick<Contact, 'name'>): string =>
  name.replace(/^Mrs /, '').replace(/ .*$/, '');

/** Those of a trade who still have work of the shop. */
export const ofTrade = (suppliers: readonly SupplierRole[], trade: SupplierRole['trade']): SupplierRole[] =>
  suppliers.filter((each) => each.trade === trade && !each.isForgotten);

/** Mechanics, whose chats are in the settings. */
export const seatMechanics = (rehearsal: Rehearsal): Person[] =>
  MECHANIC_CHATS.map((id, index) =>
    rehearsal.person({ id, firstName: ['Hettie', 'Joss'][index] ?? 'Bo', lastName: 'Marl', started: true }),
  );

export function makeSuppliers(count: number, dice: Dice, nextName: () => string): SupplierRole[] {
  return Array.from({ length: count }, (_, index) => {
    const trade = index % 5 === 4 ? 'parts' : dice.pick(TRADES);
    const works = trade === 'parts' ? 'Spares' : trade.works;
    // Telephone numbers of a range kept for fiction (Ofcom, 01632 960000 to 960999).
    const number = `01632 9601${String(index).padStart(2, '0')}`;
    return { name: `${nextName()} ${works}`, chat: null, isForgotten: false, trade, number };
  });
}
