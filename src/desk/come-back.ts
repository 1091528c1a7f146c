import type { MessageOut } from '../contact/state.js';
import { settleMatters } from './message-words.js';
import { tell } from './tell.js';
import type { Workplace } from './workplace.js';

/** What the chat's server says of a message to somebody who has stopped the bot. */
const STOPPED = '403';

/**
 * Somebody who had stopped the bot and writes again gets what could not reach them and still holds: a question that
 * waits for them, the last news of a machine. Done twice, it sends nothing twice.
 */
export async function sendWhatWasStopped(place: Workplace, person: string, at: number): Promise<void> {
  const { state } = await place.store.contact(person);
  const all = Object.values(state.messages);
  const isOutdated = (at: number): boolean =>
    all.slice(at + 1).some((later) => later.status === 'sent' && sameMatter(later, all[at]));
  const missed = all.filter(
    ({ kind, status, why, id }, at) =>
      (kind === 'yes-asked' || kind === 'notice') &&
      status === 'failed' &&
      why === STOPPED &&
      state.messages[idAgain(id)] === undefined &&
      !isOutdated(at),
  );
  for (const out of lastOfEach(missed)) {
    const about = await settleMatters(place, person, out, at);
    if (about === 'settled') continue;
    await tell(place, { id: idAgain(out.id), to: person, kind: out.kind, about, at, by: 'benchhand' });
  }
}

/** Newer news of a machine, or a newer question, stands for the older. */
const sameMatter = (one: MessageOut, other: MessageOut | undefined): boolean =>
  one.kind === other?.kind && one.about[0]?.job === other.about[0]?.job;

const idAgain = (id: string): string => `${id}~again`;

/** Of several about one machine the last tells all. */
function lastOfEach(missed: readonly MessageOut[]): MessageOut[] {
  const byMatter = new Map(missed.map((out) => [`${out.kind} ${out.about[0]?.job ?? ''}`, out]));
  return [...byMatter.values()];
}
