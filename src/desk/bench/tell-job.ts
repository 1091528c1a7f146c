import type { JobCommand } from '../../job/commands.js';
import type { Answer } from '../../wording/answer.js';
import { sayBack } from '../../wording/read-back.js';
import { todayOf } from '../calendars.js';
import { speakerFor } from '../speaker.js';
import { matterOf, tellMechanics } from '../tell.js';
import { remember } from './context.js';
import type { JobOutcome } from '../store.js';
import type { Workplace } from '../workplace.js';

type When = {
  key: string;
  by: string;
  at: number;
  message?: string;
  texts?: Readonly<Record<string, string>>;
};

/** Carries out a mechanic's word that is no reading of the bench, and says what came of it. */
export async function tellJob(
  place: Workplace,
  job: string,
  when: When,
  ...commands: JobCommand[]
): Promise<Answer> {
  const { key, at, by, message = `${by}-${key}`, texts } = when;
  const change = { commandId: `${key}-0`, at, by, message, ...(texts ? { texts } : {}) };
  const outcome = await place.store.toJob(job, change, commands);
  await afterwards(place, outcome, when);
  const [{ state: shop, policy }, people] = await Promise.all([
    place.store.shop(),
    place.deps.record.people.all(),
  ]);
  const speaker = speakerFor(todayOf(policy, at), policy, people, outcome.texts);
  const answer = sayBack(
    { ...outcome, job, commands, message, said: null, policy, jobs: shop.jobs },
    speaker,
  );
  // What its answer offers to undo is what a bare 'undo' takes back next.
  if (offersUndo(answer, message)) await remember(place.deps.record, by, { lastMessage: { job, message } });
  return answer;
}

const offersUndo = ({ buttons }: Answer, message: string): boolean =>
  buttons.flat().some(({ action }) => action.do === 'undo' && action.message === message);

/** What a change of a job means beyond it: a job handed over is closed in the shop's list; drafted notices are shown for release. */
export async function afterwards(
  place: Workplace,
  { id, state, events }: JobOutcome,
  when: { key: string; by: string; at: number },
): Promise<void> {
  const { at, by, key } = when;
  if (events.some(({ type }) => type === 'handed-over')) {
    await place.store.toShop({ commandId: `${key}-closed`, at, by }, { type: 'close-job', job: id });
  }
  const { policy } = await place.store.shop();
  if (policy.owner.noticesGoByThemselves) return;
  const drafted = events.flatMap((event) => (event.type === 'notice-drafted' ? [event.data.notice] : []));
  const open = drafted.filter((notice) =>
    state.notices.some((each) => each.id === notice && each.status === 'drafted'),
  );
  for (const notice of open) {
    const about = [matterOf(id, { step: notice })];
    await tellMechanics(place, { id: `${id}-${notice}-release`, kind: 'release-asked', about, at, by });
  }
}
