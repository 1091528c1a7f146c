import type { Person as Contact, StreamId } from '../record/types.js';
import type { ShopState } from '../shop/state.js';
import type { Answer } from '../wording/answer.js';
import { forgotten, invitationRefused } from '../wording/people.js';
import { FORGOTTEN_NAME } from '../wording/terms.js';
import type { Workplace } from './workplace.js';

/** Short talk, such as 'yes', is nobody's own: what else says it is left alone. */
const OWN_WORDS_FROM = 8;

/** Removes a person's data, everything they wrote, and their name where others wrote it; events keep the bare id. */
export async function forgetPerson(
  place: Workplace,
  person: string,
  when: { key: string; by: string; at: number },
): Promise<Answer> {
  const { record } = place.deps;
  const contact = await record.people.get(person);
  const done = await place.store.toShop(
    { commandId: `${when.key}-forget`, at: when.at, by: when.by },
    { type: 'forget', person },
  );
  if ('refusal' in done) return invitationRefused(done.refusal);
  const ids = [person, ...guestsFor(person, done.state)];
  const names = contact ? namesOf(contact) : [];
  const words: string[] = [];
  for (const stream of await record.streams()) {
    words.push(...(await forgetWords(place, stream, ids)));
    await replaceNames(place, stream, names);
  }
  const chats = (await Promise.all(ids.map((id) => record.people.get(id)))).flatMap(
    (known) => known?.chatId ?? [],
  );
  await record.forgetMentions([...names, ...words.filter(({ length }) => length >= OWN_WORDS_FROM)], chats);
  for (const id of ids) await record.people.forget(id);
  return forgotten(contact?.name ?? '');
}

/** Under what ids they came by an invitation, before it was said who they were. */
function guestsFor(person: string, { invitations }: ShopState): string[] {
  return Object.values(invitations).flatMap((each) =>
    each.person === person && each.guest !== null ? [each.guest] : [],
  );
}

function namesOf({ name, also = [] }: Contact): string[] {
  // 'The plater' is anybody's; a name of one's own is written with a capital.
  return [name, ...also.filter((each) => /\p{Lu}/u.test(each))];
}

/** The words that their events name, or that came with their commands, go; what others said about the machine stays. Gives the words. */
async function forgetWords({ deps }: Workplace, stream: StreamId, ids: readonly string[]): Promise<string[]> {
  const { events, texts } = await deps.record.load(stream);
  const theirs = events.filter(({ by }) => ids.includes(by));
  const data = JSON.stringify(theirs.map((event) => event.data));
  const isTheirs = (text: string): boolean =>
    stream === `contact-${ids[0] ?? ''}` ||
    data.includes(JSON.stringify(text)) ||
    theirs.some(({ command }) => text.startsWith(`${command}-`));
  const gone = [...texts].filter(([id]) => isTheirs(id));
  await deps.record.forgetTexts(
    stream,
    gone.map(([id]) => id),
  );
  return gone.map(([, words]) => words);
}

async function replaceNames({ deps }: Workplace, stream: StreamId, names: readonly string[]): Promise<void> {
  for (const [id, words] of await deps.record.texts(stream)) {
    const without = names.reduce((text, name) => text.replace(asWord(name), FORGOTTEN_NAME), words);
    if (without !== words) await deps.record.putText(stream, id, without);
  }
}

/** A name by itself, not within a longer word, whatever its case. */
function asWord(name: string): RegExp {
  const literal = name.replace(/[.*+?^${}()|[\]\\]/g, '\\$&');
  return new RegExp(`(?<![\\p{L}\\p{N}])${literal}(?![\\p{L}\\p{N}])`, 'giu');
}
