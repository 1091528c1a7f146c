import type { Matter, MessageKind } from '../contact/events.js';
import { contactEvent } from '../contact/events.js';
import type { ContactState } from '../contact/state.js';
import { peopleWith } from '../shop/state.js';
import type { Workplace } from './workplace.js';

export type Telling = {
  /** Made from what it is about: told twice is seen. */
  id: string;
  to: string;
  kind: MessageKind;
  about: Matter[];
  /** The person's local day, for a kind that goes once a day. */
  day?: string;
  /** Words passed on. */
  words?: string;
  at: number;
  by: string;
};

/** Intends a message: recorded now, worded and sent by a worker. */
export async function tell(
  { store }: Workplace,
  telling: Telling,
  unless?: (state: ContactState) => boolean,
): Promise<void> {
  const { id, to, kind, about, day, words, at, by } = telling;
  const text = words === undefined ? null : `${id}-words`;
  const change = {
    commandId: id,
    at,
    by,
    ...(text === null || words === undefined ? {} : { texts: { [text]: words } }),
    effects: [{ id: `send-${to}-${id}`, queue: 'send' as const, data: { contact: to, message: id } }],
  };
  await store.toContact(to, change, (state) =>
    unless?.(state) ? [] : [contactEvent('message-intended', { id, kind, about, day: day ?? null, text })],
  );
}

/** Tells every mechanic but one, whose own doing it was. */
export async function tellMechanics(
  place: Workplace,
  telling: Omit<Telling, 'to'>,
  except: string | null = null,
): Promise<void> {
  const { state } = await place.store.shop();
  for (const { id } of peopleWith(state, 'mechanic')) {
    if (id !== except) await tell(place, { ...telling, id: `${telling.id}-${id}`, to: id });
  }
}

export const matterOf = (job: string | null, about: Partial<Matter> = {}): Matter => ({
  due: null,
  job,
  person: null,
  line: null,
  step: null,
  ...about,
});
