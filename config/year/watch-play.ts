import { Redis } from 'ioredis';
import type { Recorded } from '../../src/record/types.js';
import { CONTACT, JOB } from '../../src/desk/folds.js';
import type { JobState } from '../../src/job/state.js';
import { readState } from '../../src/record/index.js';
import { BOUGHT, CLEANED, surname, TRADES } from './cast.js';
import { tracesInRedis, tracesKept, tracesSent } from './invariants/forgotten.js';
import { toldOutsiders } from './invariants/outsiders.js';
import { answeredOfOthers } from './invariants/own-answers.js';
import { notPutRight, notTakenBack } from './invariants/put-right.js';
import { roundUpAmiss } from './invariants/round-ups.js';
import type { JobRun } from './job-run.js';
import type { Happened } from './journal.js';
import { termOf } from './standing.js';
import type { World } from './world.js';

const SAID: string[] = [...TRADES.flatMap(({ parts }) => [...parts]), ...BOUGHT, ...CLEANED, 'engine plates'];
const PARTS = SAID.map(termOf);

/** Looks after each day whether what the play's people did came out as it should; gives what did not, a sentence each. */
export function makePlayWatch(world: World, happened: readonly Happened[]): () => Promise<string[]> {
  const { ledger, stage } = world;
  let looked = 0;
  return async () => {
    const isNew = ledger.forgotten.length > looked;
    looked = ledger.forgotten.length;
    return [
      ...ledger.breaches.splice(0),
      ...ownersAnswered(world),
      ...outsidersTold(world, happened),
      ...(await putRight(world)),
      ...(await roundUps(world)),
      ...(await tracesKept(stage.record, ledger.forgotten)),
      ...chatsOf(world).flatMap(({ who, chat }) => tracesSent(who, chat.messages(), ledger.forgotten)),
      ...(isNew ? await keptAnywhere(world) : []),
    ];
  };
}

/** Looks through all that Redis holds for those forgotten: slow, and so for the day of it and the last. */
export async function keptAnywhere({ stage, ledger }: World): Promise<string[]> {
  const redis = new Redis(stage.redisUrl);
  try {
    return await tracesInRedis(redis, ledger.forgotten);
  } finally {
    redis.disconnect();
  }
}

function ownersAnswered({ jobs, ledger }: World): string[] {
  const titles = jobs.map(({ title }) => title);
  return ledger.asked.splice(0).flatMap(({ run, message }) => {
    const { owner, title, said } = run;
    const own = SAID.filter((part) => said.some((words) => words.includes(part))).map(termOf);
    const question = { who: owner.name, title, message, own, said };
    return owner.chat === null
      ? []
      : answeredOfOthers(question, owner.chat.messages(), { parts: PARTS, titles });
  });
}

function outsidersTold({ jobs, suppliers, ledger }: World, happened: readonly Happened[]): string[] {
  const names = [...jobs.flatMap(({ title, owner }) => [title, surname(owner)]), ...suppliers.map(surname)];
  return ledger.outsiders.flatMap(({ chat: { user }, from }) =>
    toldOutsiders({ who: user.first_name, chat: user.id, from: from * 1000 }, happened, names),
  );
}

async function putRight({ stage, ledger }: World): Promise<string[]> {
  const jobs = await jobsIn(stage);
  const of = (run: JobRun, look: (job: Standing) => string[]): string[] => {
    const job = jobs.find(({ state }) => state.title === run.title);
    return job === undefined ? [`${run.title} is not in the record`] : look(job);
  };
  return [
    ...ledger.putRight.flatMap(({ run, ...meant }) => of(run, ({ state }) => notPutRight(state, meant))),
    ...ledger.takenBack.flatMap(({ run, ...what }) =>
      of(run, ({ state, events }) => notTakenBack(state, events, what)),
    ),
  ];
}

type Standing = { state: JobState; events: readonly Recorded[] };

async function jobsIn({ record }: World['stage']): Promise<Standing[]> {
  const streams = (await record.streams()).filter((stream) => stream.startsWith('job-'));
  return Promise.all(
    streams.map(async (stream) => {
      const { state } = await readState(record, stream, JOB);
      return { state, events: (await record.events(stream)).events };
    }),
  );
}

async function roundUps({ stage, ledger }: World): Promise<string[]> {
  const found: string[] = [];
  for (const stream of (await stage.record.streams()).filter((each) =>
    each.startsWith('contact-mechanic-'),
  )) {
    const { state } = await readState(stage.record, stream, CONTACT);
    const sent = Object.values(state.messages).flatMap(({ kind, sentAt }) =>
      kind === 'round-up' && sentAt !== null ? [sentAt] : [],
    );
    found.push(...roundUpAmiss(stream, sent, ledger.closed));
  }
  return found;
}

/** Every chat that there is, with whose it is. */
function chatsOf({ mechanics, jobs, suppliers, ledger }: World) {
  const linked = [...jobs.map(({ owner }) => owner), ...suppliers].flatMap(({ name, chat }) =>
    chat === null ? [] : [{ who: name, chat }],
  );
  return [
    ...mechanics.map((chat) => ({ who: chat.user.first_name, chat })),
    ...linked,
    ...ledger.outsiders.map(({ chat }) => ({ who: chat.user.first_name, chat })),
  ];
}
