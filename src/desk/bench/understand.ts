import { z } from 'zod';
import type { Instruction } from '../../hearing/instructions/instruction.js';
import { machineFirst, machineWithin } from '../../hearing/instructions/machine-first.js';
import { readInstruction } from '../../hearing/instructions/read-instruction.js';
import { readMessage } from '../../hearing/read-message.js';
import type { Reading } from '../../hearing/reading.js';
import { readingSchema } from '../../hearing/reading.js';
import type { JobEntry, ShopState } from '../../shop/state.js';
import type { Person } from '../../record/types.js';
import { todayOf } from '../calendars.js';
import type { Incoming } from '../desk.js';
import type { Workplace } from '../workplace.js';
import type { BenchContext } from './context.js';
import { benchContext, lastOn } from './context.js';
import type { BenchListener } from './read-ahead.js';
import { readingOf } from './read-ahead.js';
import { isOfShop } from './instruction-kinds.js';
import { threadOf } from './threads.js';
import { knownTo } from './known.js';

/** What a message was understood to say, fixed as it arrives: a redelivery goes on from here. */
export type Understood = {
  job: string | null;
  last: number | null;
  said: { instruction: Instruction } | { reading: Reading };
};

const understoodSchema = z.object({
  job: z.string().nullable(),
  last: z.number().nullable(),
  said: z.union([
    z.object({ instruction: z.custom<Instruction>(isObject) }),
    z.object({ reading: readingSchema }),
  ]),
});

function isObject(value: unknown): boolean {
  return typeof value === 'object' && value !== null;
}

/** What was understood of this update before, if it came before and was not finished. */
export function understoodBefore(stored: unknown): Understood | null {
  const parsed = understoodSchema.safeParse(stored);
  return parsed.success ? parsed.data : null;
}

export async function understand(place: Workplace, message: Incoming): Promise<Understood> {
  const { deps, store } = place;
  const [{ state: shop, policy }, people, context] = await Promise.all([
    store.shop(),
    deps.record.people.all(),
    benchContext(deps.record, message.person),
  ]);
  const { job, last } = await spokenOf(place, message, context);
  const today = todayOf(policy, message.at);
  const addressed = message.forwarded ? null : await readAddressed(place, message, { shop, people, today });
  if (addressed) return addressed;
  const standing = job === null ? null : await store.job(job);
  const known = knownTo({ shop, people, job: standing, last });
  const instruction = message.forwarded ? null : readInstruction(message.text, { today, known });
  if (instruction) return { job, last, said: { instruction } };
  const spoken = message.source === 'spoken';
  const listener = {
    ...{ today, spoken, known },
    ...(message.doubts === undefined ? {} : { doubts: message.doubts }),
  };
  const reading = readingOf(message.text, listener, place.ahead ?? null);
  if (reading.machine === null) return { job, last, said: { reading } };
  // A machine that nobody knows is asked about: what was said of it is not put down to the one on the bench.
  const meant = jobNamed(shop.jobs, people, reading.machine);
  if (meant === job) return { job, last, said: { reading } };
  if (meant === null) return { job: null, last: null, said: { reading } };
  const lastThere = lastOn(meant, context, message.at);
  const there = knownTo({ shop, people, job: await store.job(meant), last: lastThere });
  const again = readMessage(message.text, { ...listener, known: there });
  return { job: meant, last: lastThere, said: { reading: again } };
}

/** By what a mechanic's next message will be read if nothing changes until then, as far as that can be told. */
export async function listenerNext(
  { deps, store }: Workplace,
  { person, at }: Pick<Incoming, 'person' | 'at'>,
): Promise<BenchListener> {
  const [{ state: shop, policy }, people, context] = await Promise.all([
    store.shop(),
    deps.record.people.all(),
    benchContext(deps.record, person),
  ]);
  const job = context.bench === undefined ? null : await store.job(context.bench);
  const known = knownTo({ shop, people, job, last: lastOn(context.bench ?? null, context, at) });
  return { today: todayOf(policy, at), spoken: false, known };
}

type Round = { shop: ShopState; people: readonly Person[]; today: string };

/** An instruction that names its machine is of that machine, whatever is on the bench. */
async function readAddressed(
  { store }: Workplace,
  { text }: Incoming,
  { shop, people, today }: Round,
): Promise<Understood | null> {
  const open = shop.jobs.filter((each) => each.open);
  const titles = open.map(({ title }) => title);
  const first = machineFirst(text, titles);
  const within = machineWithin(text, titles);
  const forms = [
    ...(first ? [{ machine: first.machine, words: first.rest }] : []),
    ...(within?.without ?? []).map((words) => ({ machine: within?.machine, words })),
  ];
  for (const { machine, words } of forms) {
    const [job, ...more] = open.filter(({ title }) => title === machine);
    if (job === undefined || more.length > 0) continue;
    const known = knownTo({ shop, people, job: await store.job(job.id), last: null });
    const instruction = readInstruction(words, { today, known });
    if (instruction === null || isOfShop(instruction)) continue;
    return { job: job.id, last: null, said: { instruction } };
  }
  return null;
}

/** What this message answers or replaces was about, else what is on the bench. */
async function spokenOf(
  place: Workplace,
  message: Incoming,
  context: BenchContext,
): Promise<{ job: string | null; last: number | null }> {
  const earlier = message.edited ? message.messageId : message.replyTo;
  const thread = earlier === null ? null : await threadOf(place.deps.record, message.chatId, earlier);
  const job = thread?.jobs[0] ?? context.bench ?? null;
  if (thread && thread.item !== null && thread.jobs[0] === job) return { job, last: thread.item };
  return { job, last: lastOn(job, context, message.at) };
}

/** The open job meant by its title, by a word of it, or by its owner's name. */
export function jobNamed(jobs: readonly JobEntry[], people: readonly Person[], said: string): string | null {
  const wanted = said.toLowerCase().trim();
  const open = jobs.filter((job) => job.open);
  const exact = open.filter((job) => job.title.toLowerCase() === wanted);
  const byWord = open.filter(
    (job) =>
      job.title.toLowerCase().split(/\s+/).includes(wanted) ||
      wanted.split(/\s+/).includes(job.title.toLowerCase()),
  );
  const byOwner = open.filter((job) =>
    people.some((person) => person.id === job.owner && person.name.toLowerCase().includes(wanted)),
  );
  const found = [exact, byWord, byOwner].find((matches) => matches.length > 0) ?? [];
  return found.length === 1 ? (found[0]?.id ?? null) : null;
}
