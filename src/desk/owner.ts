import { contactEvent } from '../contact/events.js';
import type { ContactState } from '../contact/state.js';
import { machineFirst } from '../hearing/instructions/machine-first.js';
import { machinesNamed } from '../hearing/machines-named.js';
import type { OwnersAnswer } from '../hearing/owners/answers.js';
import { readMessage } from '../hearing/read-message.js';
import type { JobCommand } from '../job/commands.js';
import type { Item, JobState } from '../job/state.js';
import type { Answer } from '../wording/answer.js';
import {
  ownerAnswered,
  ownerProgress,
  ownerThanks,
  questionWithdrawn,
  whichOfYours,
} from '../wording/owner.js';
import { TAPPED_TOO_LATE } from '../wording/told.js';
import { fetches } from './bench/carry-out.js';
import { afterwards } from './bench/tell-job.js';
import { threadOf } from './bench/threads.js';
import { undoMessage } from './bench/undo.js';
import { todayOf } from './calendars.js';
import type { Incoming } from './desk.js';
import { sendWhatWasStopped } from './come-back.js';
import { keepMoreOfAlbum, rememberAlbum } from './guest-albums.js';
import { finishOnce } from './once.js';
import { answersIn, answersQuestion } from './owner-answers.js';
import { speakerFor } from './speaker.js';
import type { JobStanding } from './store.js';
import { matterOf, tellMechanics } from './tell.js';
import type { Workplace } from './workplace.js';

/** An owner's message: a question is answered from their own job, a yes or no is recorded, anything is passed on to the mechanics. */
export async function hearOwner(place: Workplace, message: Incoming): Promise<Answer> {
  return finishOnce(place, message.key, async () => {
    const more = await keepMoreOfAlbum(place, message);
    if (more) return more;
    await sendWhatWasStopped(place, message.person, message.at);
    const jobs = await jobsOf(place, message.person);
    const [{ policy }, people] = await Promise.all([place.store.shop(), place.deps.record.people.all()]);
    const speaker = speakerFor(
      todayOf(policy, message.at),
      policy,
      people,
      ...jobs.map(({ texts }) => texts),
    );
    const { state: contact } = await place.store.contact(message.person);
    if (message.edited) await takeBackEdited(place, message);
    const job = await jobMeant(place, message, jobs, contact);
    // What was forwarded are somebody else's words: they answer and ask nothing.
    if (job === null || message.forwarded) {
      const passedOn = await passOn(place, message, job, 'kept');
      return job === null && jobs.length > 1 ? whichOfYours(jobs) : passedOn;
    }
    const listener = { today: speaker.today, spoken: message.source === 'spoken' };
    const { question } = readMessage(message.text, listener);
    const isAnswer = answersQuestion(contact, job.id, message.replyTo);
    const titles = jobs.map(({ state }) => state.title);
    const said = machineFirst(message.text, titles)?.rest ?? message.text;
    const answered = answersIn(said, job.state, isAnswer, listener);
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

/** Of an owner's machines the one of the message replied to, the one named, or the only one they are asked about, and were last. */
async function jobMeant(
  place: Workplace,
  message: Incoming,
  jobs: readonly JobStanding[],
  contact: ContactState,
): Promise<JobStanding | null> {
  const [only, ...more] = jobs;
  if (only && more.length === 0) return only;
  const thread =
    message.replyTo === null ? null : await threadOf(place.deps.record, message.chatId, message.replyTo);
  const replied = jobs.find(({ id }) => thread?.jobs.includes(id));
  if (replied) return replied;
  const titles = jobs.map(({ state }) => state.title);
  const [named, ...others] = machinesNamed(message.text, titles);
  if (named !== undefined) return others.length > 0 ? null : (jobs[named] ?? null);
  const asked = jobs.filter(({ state }) => isWaiting(state));
  const [waiting] = asked.length === 1 && message.text.trim() !== '' ? asked : [];
  return waiting && answersQuestion(contact, waiting.id, null) ? waiting : null;
}

const isWaiting = ({ items }: JobState): boolean =>
  Object.values(items).some(({ agreement }) => agreement.status === 'asked');

/** What the message said before it was edited is taken back: it stands as it reads now. */
async function takeBackEdited(place: Workplace, message: Incoming): Promise<void> {
  const thread = await threadOf(place.deps.record, message.chatId, message.messageId);
  const when = { commandId: `${message.key}-edit`, at: message.at, by: message.person };
  // A machine may have passed to somebody else since.
  const theirs = (await jobsOf(place, message.person)).map(({ id }) => id);
  const jobs = thread?.jobs.filter((job) => theirs.includes(job)) ?? [];
  await undoMessage(place, jobs, saidAs(message), when);
}

const saidAs = ({ person, messageId }: Incoming): string => `${person}-${messageId}`;

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
    message: saidAs(message),
    texts: { [text]: message.text },
  };
  const thread = { jobs: [job.id], message: saidAs(message), item: null };
  await place.deps.record.chatMessages.put(message.chatId, message.messageId, thread);
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
  await rememberAlbum(place, message, job ? [job.id] : []);
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
    const step = live.length > 0 ? `tapped-${outcome}` : TAPPED_TOO_LATE;
    const matter = matterOf(job, { person: tap.person, step });
    await tellMechanics(
      place,
      { id: `${tap.key}-told`, kind: 'told', about: [matter], at: tap.at, by: tap.person },
      tap.person,
    );
    if (live.length === 0) return questionWithdrawn();
    const [{ policy }, people] = await Promise.all([place.store.shop(), place.deps.record.people.all()]);
    const speaker = speakerFor(todayOf(policy, tap.at), policy, people, after.texts);
    return ownerAnswered(after, [{ items: live, outcome }], speaker);
  });
}

/** A button may be a month old: work that was decided anew since was not what it asked about. */
function isStillMeant(item: Item | undefined): boolean {
  return item !== undefined && item.agreement.status !== 'not-asked';
}
