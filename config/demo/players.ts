import type { Person } from '../../bot/rehearsal/person.js';
import type { Rehearsal } from '../../bot/rehearsal/rehearsal.js';
import type { Who } from './scenario/cast.js';
import { member, WHO } from './scenario/cast.js';

export const FIRST_CHAT = 1001;

/** The chat id of somebody in the cast. */
export const chatIdOf = (who: Who): number => FIRST_CHAT + WHO.indexOf(who);

/** Who owns a chat; null for a chat of nobody in the cast. */
export const whoOf = (chatId: number): Who | null => WHO[chatId - FIRST_CHAT] ?? null;

export const MECHANICS = WHO.filter((who) => member(who).mechanic === true).map(chatIdOf);

export type Players = Readonly<Record<Who, Person>>;

/** Gives everybody in the cast their chat with the bot. */
export function seatPlayers(rehearsal: Rehearsal): Players {
  const seat = (who: Who): Person => {
    const { firstName, lastName, mechanic } = member(who);
    const names = lastName === undefined ? { firstName } : { firstName, lastName };
    return rehearsal.person({ id: chatIdOf(who), ...names, started: mechanic === true });
  };
  return Object.fromEntries(WHO.map((who) => [who, seat(who)])) as Players;
}
