import type { MessageKind } from '../../src/contact/events.js';
import { CONTACT, JOB, SHOP } from '../../src/desk/folds.js';
import { readState } from '../../src/record/index.js';
import type { Person } from '../../bot/rehearsal/person.js';
import type { World } from './world.js';

export const TO_WHOM = ['mechanics', 'owners', 'suppliers', 'others'] as const;
export type ToWhom = (typeof TO_WHOM)[number];
/** An answer comes at once to whoever wrote or pressed; all else is sent unasked. */
export type Sent = MessageKind | 'answer';

/** What went to whom, and what the jobs came to. */
export type Tally = {
  sent: Partial<Record<Sent, Partial<Record<ToWhom, number>>>>;
  /** Messages that were given up or dropped, by why. */
  notSent: Readonly<Record<string, number>>;
  gatesPassed: number;
  gatesReopened: number;
  /** Notices drafted because an owner had had no word for long. */
  silences: number;
  undone: number;
  refusedReturns: number;
  ownersNoes: number;
};

/** Counts what the record and the chats hold at the end. */
export async function tallyOf(world: World): Promise<Tally> {
  const { record } = world.stage;
  const tally: Tally = {
    ...{
      sent: {},
      notSent: {},
      gatesPassed: 0,
      gatesReopened: 0,
      silences: 0,
      undone: 0,
      refusedReturns: 0,
      ownersNoes: 0,
    },
  };
  const { state: shop } = await readState(record, 'shop', SHOP);
  for (const stream of await record.streams()) {
    if (stream.startsWith('contact-')) {
      const roles = shop.people[stream.slice('contact-'.length)]?.roles ?? [];
      await countMessages(tally, world, stream, partOf(roles));
    } else if (stream.startsWith('job-')) await countJob(tally, world, stream);
  }
  countAnswers(tally, world);
  return tally;
}

function partOf(roles: readonly string[]): ToWhom {
  if (roles.includes('mechanic')) return 'mechanics';
  return roles.includes('owner') ? 'owners' : 'suppliers';
}

type Stream = Awaited<ReturnType<World['stage']['record']['streams']>>[number];

async function countMessages(tally: Tally, { stage }: World, stream: Stream, to: ToWhom): Promise<void> {
  const { state } = await readState(stage.record, stream, CONTACT);
  const notSent: Record<string, number> = { ...tally.notSent };
  for (const { kind, status, why } of Object.values(state.messages)) {
    if (status === 'sent') add(tally, kind, to, 1);
    else notSent[why ?? status] = (notSent[why ?? status] ?? 0) + 1;
  }
  tally.notSent = notSent;
}

async function countJob(tally: Tally, { stage }: World, stream: Stream): Promise<void> {
  const { events } = await stage.record.events(stream);
  const { state } = await readState(stage.record, stream, JOB);
  const times = (type: string): number => events.filter((event) => event.type === type).length;
  tally.gatesPassed += times('gate-passed');
  tally.gatesReopened += times('gate-reopened');
  tally.silences += events.filter(
    ({ type, data }) => type === 'notice-drafted' && (data as { about: string }).about === 'silence',
  ).length;
  tally.undone += times('message-undone');
  tally.ownersNoes += events.filter(
    ({ type, data }) => type === 'owner-answered' && (data as { outcome: string }).outcome === 'no',
  ).length;
  tally.refusedReturns += Object.values(state.lines).filter(({ status }) => status === 'refused').length;
}

/** What the bot wrote in a chat and the record has no message for is an answer. */
function countAnswers(tally: Tally, { mechanics, jobs, suppliers, ledger }: World): void {
  const chats: Record<ToWhom, Person[]> = {
    mechanics: [...mechanics],
    owners: jobs.flatMap(({ owner }) => owner.chat ?? []),
    suppliers: suppliers.flatMap(({ chat }) => chat ?? []),
    others: ledger.outsiders.map(({ chat }) => chat),
  };
  for (const to of TO_WHOM) {
    const seen = chats[to].flatMap((chat) => chat.messages()).filter(({ by }) => by === 'bot').length;
    const sent = Object.values(tally.sent).reduce((sum, each) => sum + (each[to] ?? 0), 0);
    add(tally, 'answer', to, Math.max(0, seen - sent));
  }
}

function add(tally: Tally, kind: Sent, to: ToWhom, times: number): void {
  const row = tally.sent[kind] ?? {};
  tally.sent[kind] = { ...row, [to]: (row[to] ?? 0) + times };
}
