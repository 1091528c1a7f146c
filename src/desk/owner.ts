import { contactEvent } from '../contact/events.js';
import type { OwnersAnswer } from '../hearing/owners/answers.js';
import { readMessage } from '../hearing/read-message.js';
import type { JobCommand } from '../job/commands.js';
import type { Item } from '../job/state.js';
import type { Answer } from '../wording/answer.js';
import { ownerAnswered, ownerProgress, ownerThanks, whichOfYours } from '../wording/owner.js';
import { fetches } from './bench/carry-out.js';
import { afterwards } from './bench/tell-job.js';
import { threadOf } from './bench/threads.js';
import { todayOf } from './calendars.js';
import type { Incoming } from './desk.js';
import { finishOnce } from './once.js';
import { answersIn, answersQuestion } from './owner-answers.js';
import { speakerFor } from './speaker.js';
import type { JobStanding } from './store.js';
import { matterOf, tellMechanics } from './tell.js';
import type { Workplace } from './workplace.js';

/** An owner's message: a question is answered from their own job, a yes or no is recorded, anything is passed on to the mechanics. */
export async function hearOwner(place: Workplace, message: Incoming): Promise<Answer> {
  return finishOnce(place, message.key, async () => {
    const jobs = await jobsOf(place, message.person);
    const [{ policy }, people] = await Promise.all([place.store.shop(), place.deps.record.people.all()]);
    const speaker = speakerFor(
      todayOf(policy, message.at),
      policy,
      people,
      ...jobs.map(({ texts }) => texts),
    );
    const job = await jobMeant(place, message, jobs);
    if (job === null) return jobs.length > 1 ? whichOfYours(jobs) : passOn(place, message, null, 'kept');
    const listener = { today: speaker.today, spoken: message.source === 'spoken' };
    const { question } = readMessage(message.text, listener);
    const { state: contact } = await place.store.contact(message.person);
    const answered = answersIn(message.text, job.state, answersQuestion(contact, message.replyTo), listener);
    // 'Yes please. When will it be ready?' answers, and asks; 'is the tank too dear?' only asks.
    if (question !== null && answered.every(({ outcome }) => outcome === 'talk')) {
      await passOn(place, message, job, 'asked');
      return ownerProgress(job, question, { ownerYesFrom: policy.owner.yesFrom }, speaker);
    }
    return answered.length > 0
      ? recordAnswers(place, message, job, answered)
      : passOn(place, message, job, 'kept');
  });
}

/** The owner's jobs that are in the shop, else the last one that was. */
export async function jobsOf(place: Workplace, owner: string): Promise<JobStanding[]> {
  const { state: shop } = await place.store.shop();
  const theirs = shop.jobs.filter((job) => job.owner === owner);
  const open = theirs.filter((job) => job.open);
  return Promise.all((open.length > 0 ? open : theirs.slice(-1)).map(({ id }) => place.store.job(id)));
}

async function jobMeant(
  place: Workplace,
  message: Incoming,
  jobs: readonly JobStanding[],
): Promise<JobStanding | null> {
  const [only, ...more] = jobs;
  if (only && more.length === 0) return only;
  const thread =
    message.replyTo === null ? null : await threadOf(place.deps.record, message.chatId, message.replyTo);
  const text = message.text.toLowerCase();
  return (
    jobs.find(({ id }) => thread?.jobs.includes(id)) ??
    jobs.find(({ state }) => text.includes(state.title.toLowerCase())) ??
    null
  );
}

async function recordAnswers(
  place: Workplace,
  message: Incoming,
  job: JobStanding,
  given: readonly OwnersAnswer[],
): Promise<Answer> {
  const text = `${message.key}-text`;
  const commands: JobCommand[] = given.map(({ items, outcome }) => ({
    type: 'answer',
    items,
    outcome,
    text,
  }));
  const change = {
    commandId: `${message.key}-0`,
    at: message.at,
    by: message.person,
    texts: { [text]: message.text },
  };
  const outcome = await place.store.toJob(job.id, change, commands);
  await afterwards(place, outcome, { key: message.key, by: message.person, at: message.at });
  await passOn(place, message, job, 'answered');
  const [{ policy }, people] = await Promise.all([place.store.shop(), place.deps.record.people.all()]);
  const speaker = speakerFor(todayOf(policy, message.at), policy, people, outcome.texts);
  return ownerAnswered(outcome, given, speaker);
}

/** Keeps the owner's words with them and, but for a mere question, brings them to the mechanics. */
async function passOn(
  place: Workplace,
  message: Incoming,
  job: JobStanding | null,
  as: 'kept' | 'asked' | 'answered',
): Promise<Answer> {
  const { key, person, at, text, attachments } = message;
  const words = `${key}-words`;
  const matter = matterOf(job?.id ?? null, { person, step: as });
  const received = { commandId: `${key}-received`, at, by: person, texts: { [words]: text } };
  await place.store.toContact(person, received, () => [
    contactEvent('message-received', { text: words, about: [matter] }),
  ]);
  if (job && attachments.length > 0) {
    const kept = {
      commandId: `${key}-kept`,
      at,
      by: person,
      texts: { [words]: text },
      effects: fetches(job.id, attachments),
    };
    await place.store.toJob(job.id, kept, [{ type: 'keep-note', target: null, text: words, attachments }]);
  }
  await tellMechanics(
    place,
    { id: `${key}-told`, kind: 'told', about: [matter], words: text, at, by: person },
    person,
  );
  return ownerThanks();
}

/** A tap under a question of what may be done, or on a notice. */
export async function ownerTaps(
  place: Workplace,
  tap: { key: string; person: string; at: number },
  job: string,
  items: readonly number[],
  outcome: 'yes' | 'no' | 'talk',
): Promise<Answer> {
  return finishOnce(place, tap.key, async () => {
    const { state } = await place.store.job(job);
    const live = items.filter((item) => isStillMeant(state.items[item]));
    const commands: JobCommand[] =
      live.length > 0 ? [{ type: 'answer', items: live, outcome, text: null }] : [];
    const change = { commandId: `${tap.key}-0`, at: tap.at, by: tap.person };
    const after = await place.store.toJob(job, change, commands);
    await afterwards(place, after, { key: tap.key, by: tap.person, at: tap.at });
    const matter = matterOf(job, { person: tap.person, step: `tapped-${outcome}` });
    await tellMechanics(
      place,
      { id: `${tap.key}-told`, kind: 'told', about: [matter], at: tap.at, by: tap.person },
      tap.person,
    );
    const [{ policy }, people] = await Promise.all([place.store.shop(), place.deps.record.people.all()]);
    const speaker = speakerFor(todayOf(policy, tap.at), policy, people, after.texts);
    return ownerAnswered(after, [{ items: live, outcome }], speaker);
  });
}

/** A button may be a month old: work that was decided anew since was not what it asked about. */
function isStillMeant(item: Item | undefined): boolean {
  return item !== undefined && item.agreement.status !== 'not-asked';
}
