import { machineWithin } from '../../hearing/instructions/machine-first.js';
import { readMessage } from '../../hearing/read-message.js';
import type { ItemReading, Reading } from '../../hearing/reading.js';
import type { JobEntry } from '../../shop/state.js';
import { lexicon } from '../../trade/lexicon/load.js';
import type { Answer, Thread } from '../../wording/answer.js';
import { explainChange } from '../../wording/bench.js';
import { todayOf } from '../calendars.js';
import type { Incoming } from '../desk.js';
import type { Workplace } from '../workplace.js';
import type { Saying } from './carry-out.js';
import { benchContext, type BenchContext } from './context.js';
import { answerToReading } from './receive.js';
import { threadOf } from './threads.js';
import { undoMessage } from './undo.js';

type LastSaid = NonNullable<BenchContext['lastSaid']>;

/**
 * 'No, that's the pawl': what was said last is taken back and recorded as put right. Where the thing had a name that
 * the lexicon lacks, the name is learnt.
 */
export async function correctLast(
  place: Workplace,
  saying: Saying,
  words: string,
  { chatId, replyTo }: Incoming,
): Promise<Answer> {
  const { record } = place.deps;
  const { lastSaid } = await benchContext(record, saying.person);
  const thread = replyTo === null ? null : await threadOf(record, chatId, replyTo);
  if (thread && thread.message !== lastSaid?.message) return addTo(place, saying, words, thread, chatId);
  const said = lastSaid?.reading.items.at(-1);
  if (!lastSaid || !said) return explainChange();
  const { state: shop, policy } = await place.store.shop();
  const other = jobCalled(shop.jobs, words);
  if (other !== null) return moveTo(place, saying, lastSaid, other, chatId);
  const today = todayOf(policy, saying.at);
  const meant = readAgain(words, said, today);
  if (!meant) return explainChange();
  const { key, at, person } = saying;
  if (isNickname(said, meant) && said.part !== null && meant.part !== null) {
    const learnt = { type: 'learn-word', said: said.part, part: meant.part } as const;
    await place.store.toShop({ commandId: `${key}-learnt`, at, by: person }, learnt);
  }
  const items = [...lastSaid.reading.items.slice(0, -1), putRight(said, meant)];
  return sayInstead(place, saying, lastSaid, { job: lastSaid.job, items }, chatId);
}

/** 'No, that's the Ostrel': what was said last is taken back where it was put down, and put down on that machine. */
async function moveTo(
  place: Workplace,
  saying: Saying,
  lastSaid: LastSaid,
  job: string,
  chatId: number,
): Promise<Answer> {
  if (lastSaid.job === job && lastSaid.key !== saying.key) return explainChange();
  const { state } = await place.store.job(lastSaid.job);
  // Of a message about several machines only what was put down last was on the wrong one; numbers are of that one's list.
  const machine = lastSaid.reading.items.at(-1)?.machine;
  const items = lastSaid.reading.items
    .filter((item) => item.machine === machine)
    .map(({ machine: _machine, ...item }) => {
      const listed = item.item === null ? undefined : state.items[item.item];
      if (listed === undefined || item.part !== null) return { ...item, item: null };
      return { ...item, item: null, part: listed.part, place: listed.place };
    });
  return sayInstead(place, saying, lastSaid, { job, items }, chatId);
}

async function sayInstead(
  place: Workplace,
  saying: Saying,
  { job: before, message, messageId, attachments, reading: was, key: by }: LastSaid,
  { job, items }: { job: string; items: ItemReading[] },
  chatId: number,
): Promise<Answer> {
  const { key, at, person } = saying;
  // Told again after it was put right, there is nothing to take back.
  if (by !== key)
    await undoMessage(place, [before], message, { commandId: `${key}-instead`, at, by: person });
  const reading: Reading = { ...was, items };
  const text = `${was.text} – ${saying.text}`;
  const again: Saying = { key, person, message, messageId, at, text, attachments };
  return answerToReading(place, again, job, null, reading, chatId);
}

/** The open job that words name and nothing else: 'the Ostrel', 'Ostrel 250'. */
function jobCalled(jobs: readonly JobEntry[], words: string): string | null {
  const titles = jobs.filter(({ open }) => open).map(({ title }) => title);
  const named = machineWithin(words.replace(/^the /i, ''), titles);
  const found = named?.without[1] === '' ? jobs.filter(({ title }) => title === named.machine) : [];
  return found.length === 1 ? (found[0]?.id ?? null) : null;
}

/** Words in reply to something said earlier are read as said of it now: what was read then is known no more. */
async function addTo(
  place: Workplace,
  saying: Saying,
  words: string,
  { jobs: [job], item }: Thread,
  chatId: number,
): Promise<Answer> {
  const { policy } = await place.store.shop();
  const reading = readMessage(words, { today: todayOf(policy, saying.at) });
  return answerToReading(place, saying, job ?? null, item, reading, chatId);
}

/** Words that name no part are read as said of the thing that was spoken of. */
function readAgain(words: string, said: ItemReading, today: string): ItemReading | null {
  const alone = readMessage(words, { today }).items.at(-1);
  if (alone && alone.part !== null) return alone;
  const about = said.part ?? (said.item === null ? null : `item ${said.item}`);
  return (about === null ? null : readMessage(`${about} ${words}`, { today }).items.at(-1)) ?? null;
}

/** A name that the reader had to take as it was said. */
function isNickname(said: ItemReading, meant: ItemReading): boolean {
  return said.part !== null && meant.part !== said.part && lexicon.byName(said.part) === undefined;
}

function putRight(said: ItemReading, meant: ItemReading): ItemReading {
  const or = <T>(now: T[], then: T[]): T[] => (now.length > 0 ? now : then);
  return {
    ...said,
    part: meant.part ?? said.part,
    item: meant.item ?? (meant.part !== null && meant.part !== said.part ? null : said.item),
    count: meant.count ?? said.count,
    place: or(meant.place, said.place),
    conditions: or(meant.conditions, said.conditions),
    remedy: meant.remedy ?? said.remedy,
    processes: or(meant.processes, said.processes),
    supplier: meant.supplier ?? said.supplier,
    stored: meant.stored ?? said.stored,
    cost: meant.cost ?? said.cost,
    due: meant.due ?? said.due,
    readings: or(meant.readings, said.readings),
    unsure: [],
  };
}
