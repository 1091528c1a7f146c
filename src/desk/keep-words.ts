import { contactEvent } from '../contact/events.js';
import type { Saying } from './bench/carry-out.js';
import type { Workplace } from './workplace.js';

/** Keeps words that found no place on a job in the person's own stream, so that nothing said is lost. */
export async function keepWords(
  { store }: Workplace,
  saying: Pick<Saying, 'key' | 'person' | 'at' | 'text'>,
): Promise<void> {
  if (saying.text === '') return;
  const text = `${saying.key}-kept`;
  const change = { commandId: text, at: saying.at, by: saying.person, texts: { [text]: saying.text } };
  await store.toContact(saying.person, change, () => [contactEvent('message-received', { text, about: [] })]);
}
