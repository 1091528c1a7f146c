import type { Attachment } from '../job/events.js';
import type { JobState } from '../job/state.js';
import type { Effect } from '../record/types.js';
import type { Workplace } from './workplace.js';

/** An effect is asked for again once its queue has had this long to do it. */
const OVERDUE_MS = 3_600_000;
const DAY_MS = 24 * 3_600_000;

/**
 * Asks again for what was to be done and never was: queues may be lost where the record is kept, as after a
 * restore. What is done twice is seen by whoever does it. Once a day at most for each thing.
 */
export async function recover(place: Workplace, now: number): Promise<number> {
  const streams = await place.deps.record.streams();
  const people = streams.filter((id) => id.startsWith('contact-')).map((id) => id.slice('contact-'.length));
  const jobs = streams.filter((id) => id.startsWith('job-')).map((id) => id.slice('job-'.length));
  const day = Math.floor(now / DAY_MS);
  let asked = 0;
  for (const person of people) asked += await resend(place, person, now, day);
  for (const job of jobs) asked += await refetch(place, job, now, day);
  return asked;
}

async function resend(place: Workplace, person: string, now: number, day: number): Promise<number> {
  const { state } = await place.store.contact(person);
  const waiting = Object.values(state.messages).filter(
    ({ status, intendedAt }) => status === 'intended' && intendedAt < now - OVERDUE_MS,
  );
  const effects = waiting.map(({ id }): Effect => ({
    id: `send-${person}-${id}-${day}`,
    queue: 'send',
    data: { contact: person, message: id },
  }));
  if (effects.length > 0) {
    await place.store.toContact(
      person,
      { commandId: `recover-${day}`, at: now, by: 'benchhand', effects },
      () => [],
    );
  }
  return effects.length;
}

async function refetch(place: Workplace, job: string, now: number, day: number): Promise<number> {
  const { state } = await place.store.job(job);
  const effects = attachmentsOf(state)
    .filter(({ at, attachment }) => at < now - OVERDUE_MS && !state.fetched[attachment.unique])
    .map(({ attachment: { unique, handle, kind } }): Effect => ({
      id: `fetch-${job}-${unique}-${day}`,
      queue: 'fetch',
      data: { job, unique, handle, kind },
    }));
  if (effects.length > 0) {
    await place.store.toJob(job, { commandId: `recover-${day}`, at: now, by: 'benchhand', effects }, []);
  }
  return effects.length;
}

function attachmentsOf(state: JobState): { at: number; attachment: Attachment }[] {
  const findings = Object.values(state.items).flatMap(({ findings: found }) => found);
  const kept = [...findings, ...state.notes].flatMap(({ at, attachments }) =>
    attachments.map((attachment) => ({ at, attachment })),
  );
  const arrival = state.arrival.flatMap(({ attachments }) =>
    attachments.map((attachment) => ({ at: state.openedAt, attachment })),
  );
  return [...arrival, ...kept];
}
