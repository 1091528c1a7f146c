import { forgotten, invitationRefused } from '../wording/people.js';
import type { Answer } from '../wording/answer.js';
import type { Workplace } from './workplace.js';

/** Removes a person's data and everything they wrote; events keep the bare id. */
export async function forgetPerson(
  place: Workplace,
  person: string,
  when: { key: string; by: string; at: number },
): Promise<Answer> {
  const { record } = place.deps;
  const name = (await record.people.get(person))?.name ?? '';
  const done = await place.store.toShop(
    { commandId: `${when.key}-forget`, at: when.at, by: when.by },
    { type: 'forget', person },
  );
  if ('refusal' in done) return invitationRefused(done.refusal);
  await record.forgetTexts(`contact-${person}`, [...(await record.texts(`contact-${person}`)).keys()]);
  for (const { id } of done.state.jobs) await forgetOnJob(place, id, person);
  await record.people.forget(person);
  await record.context.set(person, { bench: null, last: null, lastMessage: null, lastSaid: null });
  return forgotten(name);
}

/** Their own words on a job go; what others said about the machine stays. */
async function forgetOnJob({ deps }: Workplace, job: string, person: string): Promise<void> {
  const stream = `job-${job}` as const;
  const { events } = await deps.record.load(stream);
  const ids = events.flatMap(({ by, data }) => (by === person ? wordsIn(data) : []));
  if (ids.length > 0) await deps.record.forgetTexts(stream, [...new Set(ids)]);
}

function wordsIn(data: unknown): string[] {
  const { text } = data as { text?: unknown };
  return typeof text === 'string' ? [text] : [];
}
