import type { StreamId } from '../record/types.js';
import type { ShopState } from '../shop/state.js';
import type { Answer } from '../wording/answer.js';
import { forgotten, invitationRefused } from '../wording/people.js';
import type { Traces } from './traces.js';
import { mentionsIn, tracesOf, withoutTraces } from './traces.js';
import type { Workplace } from './workplace.js';

/** Short talk, such as 'yes', is nobody's own: what else says it is left alone. */
const OWN_WORDS_FROM = 8;

const NO_TRACES: Traces = { names: [], halves: [], numbers: [] };

/** Removes a person's data, everything they wrote, and their name and numbers where others wrote them; events keep the bare id. */
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
  const others = (await record.people.all()).filter(({ id }) => !ids.includes(id));
  const traces = contact ? tracesOf(contact, others) : NO_TRACES;
  const words: string[] = [];
  for (const stream of await record.streams()) {
    words.push(...(await forgetWords(place, stream, ids)));
    await removeTraces(place, stream, traces);
  }
  const chats = (await Promise.all(ids.map((id) => record.people.get(id)))).flatMap(
    (known) => known?.chatId ?? [],
  );
  const own = words.filter(({ length }) => length >= OWN_WORDS_FROM).map((each) => each.toLowerCase());
  const isMentioned = mentionsIn(traces);
  await record.forgetMentions(
    (text) => isMentioned(text) || own.some((each) => text.toLowerCase().includes(each)),
    chats,
  );
  for (const id of ids) await record.people.forget(id);
  return forgotten(contact?.name ?? '');
}

/** Under what ids they came by an invitation, before it was said who they were. */
function guestsFor(person: string, { invitations }: ShopState): string[] {
  return Object.values(invitations).flatMap((each) =>
    each.person === person && each.guest !== null ? [each.guest] : [],
  );
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

async function removeTraces({ deps }: Workplace, stream: StreamId, traces: Traces): Promise<void> {
  for (const [id, words] of await deps.record.texts(stream)) {
    const without = withoutTraces(words, traces);
    if (without !== words) await deps.record.putText(stream, id, without);
  }
}
