import type { ItemReading, Reading } from '../../hearing/reading.js';
import { containerNamed } from '../../hearing/tagging/stored.js';
import type { JobState } from '../../job/state.js';
import type { Person } from '../../record/types.js';
import type { Policy } from '../../shop/policy.js';
import type { ShopState } from '../../shop/state.js';
import type { Answer, Thread } from '../../wording/answer.js';
import { mergeAnswers, sayBack } from '../../wording/read-back.js';
import { askWhichJob, nothingHeard } from '../../wording/bench.js';
import { todayOf } from '../calendars.js';
import { finishOnce } from '../once.js';
import type { Incoming } from '../desk.js';
import { speakerFor } from '../speaker.js';
import { keepWords } from '../keep-words.js';
import type { Workplace } from '../workplace.js';
import type { Carried, Saying } from './carry-out.js';
import { byJob, carryOut } from './carry-out.js';
import { answerInAlbum } from './albums.js';
import { remember } from './context.js';
import { obey } from './instructions.js';
import { answerQuestion, numberAsked } from './questions.js';
import { afterwards } from './tell-job.js';
import { threadOf } from './threads.js';
import { undoMessage } from './undo.js';
import type { Understood } from './understand.js';
import { jobNamed, understand, understoodBefore } from './understand.js';

/** A mechanic's message, from the chat to the reply. The same update twice is answered from what was recorded. */
export async function receiveAtBench(place: Workplace, message: Incoming): Promise<Answer> {
  return finishOnce(place, message.key, async (begun) => {
    const understood = understoodBefore(begun) ?? (await understand(place, message));
    await place.deps.record.inbox.begin(message.key, understood);
    return answerTo(place, message, understood);
  });
}

async function answerTo(
  place: Workplace,
  message: Incoming,
  { job, last, said }: Understood,
): Promise<Answer> {
  const saying = sayingOf(message);
  if (message.edited) await takeBackEdited(place, message, saying);
  if ('instruction' in said) return obey(place, saying, job, said.instruction, message);
  if (message.album === null) return answerToReading(place, saying, job, last, said.reading, message.chatId);
  return answerInAlbum(place, message.album, saying, (whole, item) =>
    answerToReading(place, whole, job, item ?? last, said.reading, message.chatId),
  );
}

async function takeBackEdited(place: Workplace, message: Incoming, saying: Saying): Promise<void> {
  const thread = await threadOf(place.deps.record, message.chatId, message.messageId);
  const when = { commandId: `${message.key}-edit`, at: message.at, by: message.person };
  if (thread) await undoMessage(place, thread.jobs, saying.message, when);
}

function sayingOf(message: Incoming): Saying {
  const { key, person, messageId, at, text, attachments } = message;
  return { key, person, message: `${person}-${messageId}`, messageId, at, text, attachments };
}

/** Carries a reading out, job by job, and answers the question in it. */
export async function answerToReading(
  place: Workplace,
  saying: Saying,
  job: string | null,
  last: number | null,
  reading: Reading,
  chatId: number,
): Promise<Answer> {
  const around = await standingAround(place);
  const { shop, people } = around;
  const facts = factsOf(reading, saying, last);
  const asked = reading.question === null ? [] : [await answerAsked(place, saying, job, reading)];
  if (facts.length === 0 && asked.length > 0) return mergeAnswers(asked);
  const groups = byJob(facts, job, (machine) => jobNamed(shop.jobs, people, machine));
  if (groups.length === 0 || groups.some((group) => group.job === null)) {
    await keepWords(place, saying);
    const mere = saying.attachments.length === 0 && facts.every(({ act }) => act === 'note');
    return mere ? nothingHeard(saying.text) : askWhichJob(shop.jobs, reading, saying);
  }
  const carried: Carried[] = [];
  /** Worded while the disk is written; said only once it was. */
  const foreseen: { state: JobState; answer: Answer }[] = [];
  for (const [index, group] of groups.entries()) {
    if (group.job === null) continue;
    const done = await carryOut(place, saying, group.job, group.items, last, index, (coming) =>
      foreseen.push({ state: coming.state, answer: readBack(coming, saying, reading, around) }),
    );
    await afterwards(place, done, { key: `${saying.key}-${index}`, by: saying.person, at: saying.at });
    carried.push(done);
  }
  const thread = await rememberThread(place, saying, carried, reading, chatId);
  const now = await standingAround(place);
  const isAsForeseen = now.shop === shop && now.people === people;
  const saidBack = carried.map(
    (each) =>
      (isAsForeseen ? foreseen.find(({ state }) => state === each.state)?.answer : undefined) ??
      readBack(each, saying, reading, now),
  );
  const answer = mergeAnswers([...saidBack, ...asked]);
  return thread ? { ...answer, thread } : answer;
}

/** What a reading says, questions apart. A picture or voice note without words is a note on the item spoken of last. */
function factsOf(reading: Reading, saying: Saying, last: number | null): ItemReading[] {
  const facts = reading.items.filter(({ act }) => act !== 'question');
  const wordless = facts.length === 0 && reading.question === null;
  return wordless && (saying.attachments.length > 0 || saying.text.trim() !== '')
    ? [wordlessNote(last)]
    : facts;
}

function wordlessNote(item: number | null): ItemReading {
  return {
    ...{ act: 'note', item, part: null, count: null, place: [], conditions: [], remedy: null, processes: [] },
    ...{ supplier: null, stored: null, outcome: null, cost: null, due: null, readings: [], unsure: [] },
  };
}

/** Overdue, held, next and what is in a box are asked of the whole shop, unless a machine is named. */
async function answerAsked(
  place: Workplace,
  saying: Saying,
  job: string | null,
  reading: Reading,
): Promise<Answer> {
  const { question, machine, items } = reading;
  if (question === null) throw new Error('a question is answered only where one was asked');
  const container = question.part === null && question.about === 'where' ? containerNamed(saying.text) : null;
  const shopWide =
    machine === null && (['overdue', 'holding', 'next'].includes(question.about) || container !== null);
  const named = items.find((each) => each.item !== null)?.item ?? null;
  const item = named ?? (job === null ? null : numberAsked(saying.text, (await place.store.job(job)).state));
  return answerQuestion(
    place,
    { job: shopWide ? null : job, question, full: false, item, container },
    saying,
  );
}

/** What an answer is worded from besides the job itself. */
type Around = { shop: ShopState; policy: Policy; people: readonly Person[] };

async function standingAround({ store, deps }: Workplace): Promise<Around> {
  const [{ state: shop, policy }, people] = await Promise.all([store.shop(), deps.record.people.all()]);
  return { shop, policy, people };
}

function readBack(
  carried: Carried,
  saying: Saying,
  reading: Reading,
  { shop, policy, people }: Around,
): Answer {
  const speaker = speakerFor(todayOf(policy, saying.at), policy, people, carried.texts);
  const { id, meant } = carried;
  return sayBack(
    {
      ...carried,
      job: id,
      message: saying.message,
      said: {
        reading: { ...reading, items: [...meant] },
        messageId: saying.messageId,
        attachments: saying.attachments,
      },
      policy,
      jobs: shop.jobs,
    },
    speaker,
  );
}

/** What talk without a name will mean next: the job, the last item spoken of, the last message that changed something. */
async function rememberThread(
  place: Workplace,
  saying: Saying,
  carried: readonly Carried[],
  reading: Reading,
  chatId: number,
): Promise<Thread | null> {
  const { record } = place.deps;
  const latest = carried.at(-1);
  if (!latest) return null;
  const item = itemsTouched(latest).at(-1) ?? null;
  const thread = { jobs: carried.map(({ id }) => id), message: saying.message, item };
  await Promise.all([
    remember(record, saying.person, {
      lastMessage: { job: latest.id, message: saying.message },
      lastSaid: {
        job: latest.id,
        message: saying.message,
        messageId: saying.messageId,
        reading,
        attachments: saying.attachments,
        key: saying.key,
      },
      ...(item === null ? {} : { last: { job: latest.id, item, at: saying.at } }),
    }),
    record.chatMessages.put(chatId, saying.messageId, thread),
  ]);
  return thread;
}

function itemsTouched({ events }: Carried): number[] {
  return events.flatMap(({ data }) => ('item' in data && data.item !== null ? [data.item] : []));
}
