import type { Rehearsal } from '../../bot/rehearsal/rehearsal.js';
import type { RecordedContactEvent } from '../../src/contact/state.js';
import { evolveContact, NEW_CONTACT } from '../../src/contact/state.js';
import type { MessageOut } from '../../src/contact/state.js';
import { totalOf } from '../../src/job/work.js';
import { foldJob } from '../../src/job/fold.js';
import type { RecordedJobEvent } from '../../src/job/evolve.js';
import type { JobState, Line } from '../../src/job/state.js';
import type { ShopRecord, StreamId } from '../../src/record/types.js';
import { GATES } from '../../src/trade/terms.js';
import type { Gate } from '../../src/trade/terms.js';
import type { Players } from './players.js';
import type { Who } from './scenario/cast.js';
import { WHO } from './scenario/cast.js';

export type GateReport = { gate: Gate; passedAt: number[]; reopenedAt: number[]; isPassed: boolean };

export type LineReport = {
  item: number;
  part: string;
  kind: Line['kind'];
  supplier: string;
  openedOn: string;
  promised: string[];
  returnedOn: string | null;
  status: Line['status'];
};

export type JobReport = {
  title: string;
  status: JobState['status'];
  events: Record<string, number>;
  gates: GateReport[];
  items: number;
  lines: LineReport[];
  /** Work and parts in major units: of the items that were not refused. */
  cost: number;
};

/** What a rehearsal left in the record, and what everybody saw. */
export type Report = {
  jobs: JobReport[];
  /** Events of the shop's own stream and of people's, by kind. */
  others: Record<string, number>;
  /** Messages that went by themselves, by kind; those to suppliers by the steps of their matters too. */
  sent: Record<string, number>;
  notSent: Record<string, number>;
  supplierSteps: Record<string, number>;
  photos: number;
  fileBytes: number;
  /** Everything in each chat, both directions, oldest first. */
  chats: Record<Who, { by: 'bot' | 'person'; kind: string; text: string; buttons: string[] }[]>;
  /** What the buttons send that were ever shown, those that are gone too. */
  buttonTokens: readonly string[];
  /** Bot API calls that were answered with an error. */
  refusedCalls: number;
};

/** Gathers the report of a rehearsal at rest. */
export async function gatherReport(
  record: ShopRecord,
  players: Players,
  refusedCalls: number,
  buttonTokens: readonly string[] = [],
): Promise<Report> {
  const streams = await record.streams();
  const names = new Map((await record.people.all()).map(({ id, name }) => [id, name]));
  const jobs: JobReport[] = [];
  for (const stream of streams.filter((id) => id.startsWith('job-'))) {
    const { events } = await record.events(stream);
    jobs.push(jobReport(events as unknown as RecordedJobEvent[], names));
  }
  const others = streams.filter((id) => !id.startsWith('job-'));
  const loaded = await Promise.all(others.map(async (stream) => (await record.events(stream)).events));
  const messages = await messagesOut(record, streams);
  const went = messages.filter(({ status }) => status === 'sent');
  return {
    jobs,
    others: countBy(loaded.flat(), ({ type }) => type),
    sent: countBy(went, ({ kind }) => kind),
    notSent: countBy(
      messages.filter(({ status }) => status !== 'sent'),
      ({ kind, status, why }) => `${kind}: ${why ?? status}`,
    ),
    supplierSteps: countBy(
      went.filter(({ kind }) => kind === 'supplier-day').flatMap(({ about }) => about),
      ({ step }) => step ?? '',
    ),
    photos: jobs.reduce((sum, { events }) => sum + (events['attachment-fetched'] ?? 0), 0),
    fileBytes: await record.files.bytes(),
    chats: Object.fromEntries(WHO.map((who) => [who, chatOf(players, who)])) as Report['chats'],
    buttonTokens,
    refusedCalls,
  };
}

/** Counts the Bot API calls that are refused from now on. */
export function countRefusals(rehearsal: Pick<Rehearsal, 'on'>): () => number {
  let refused = 0;
  rehearsal.on('call', ({ outcome }) => {
    if (outcome === 'error') refused += 1;
  });
  return () => refused;
}

/** Gathers what the buttons send that are shown from now on. */
export function gatherTokens(rehearsal: Pick<Rehearsal, 'on'>): () => string[] {
  const tokens = new Set<string>();
  rehearsal.on('chat', (event) => {
    if (event.type !== 'message' && event.type !== 'edit') return;
    for (const button of event.message.reply_markup?.inline_keyboard.flat() ?? []) {
      if ('callback_data' in button) tokens.add(button.callback_data);
    }
  });
  return () => [...tokens];
}

async function messagesOut(record: ShopRecord, streams: readonly StreamId[]): Promise<MessageOut[]> {
  const contacts = streams.filter((id) => id.startsWith('contact-'));
  const states = await Promise.all(
    contacts.map(async (stream) => {
      const { events } = await record.events(stream);
      return (events as unknown as RecordedContactEvent[]).reduce(evolveContact, NEW_CONTACT);
    }),
  );
  return states.flatMap(({ messages }) => Object.values(messages));
}

function jobReport(events: readonly RecordedJobEvent[], names: ReadonlyMap<string, string>): JobReport {
  const state = foldJob(events);
  const nameOf = (id: string | null): string => (id === null ? 'nobody named' : (names.get(id) ?? id));
  const lines = Object.values(state.lines).map((line) => ({
    item: line.item,
    part: [...(state.items[line.item]?.place ?? []), state.items[line.item]?.part ?? 'thing'].join(' '),
    kind: line.kind,
    supplier: nameOf(line.supplier),
    openedOn: line.openedOn,
    promised: line.promises.map(({ due }) => due),
    returnedOn: line.returnedOn,
    status: line.status,
  }));
  const items = Object.values(state.items);
  return {
    title: state.title,
    status: state.status,
    events: countBy(events, ({ type }) => type),
    gates: GATES.map((gate) => gateReport(events, state, gate)),
    items: items.length,
    lines,
    cost: items
      .filter(({ agreement }) => agreement.status !== 'no')
      .reduce((sum, item) => sum + (totalOf(item) ?? 0), 0),
  };
}

function gateReport(events: readonly RecordedJobEvent[], state: JobState, gate: Gate): GateReport {
  const when = (type: 'gate-passed' | 'gate-reopened'): number[] =>
    events.flatMap((each) => (each.type === type && each.data.gate === gate ? [each.at] : []));
  return {
    gate,
    passedAt: when('gate-passed'),
    reopenedAt: when('gate-reopened'),
    isPassed: state.gates[gate].passed,
  };
}

function chatOf(players: Players, who: Who): Report['chats'][Who] {
  return players[who].messages().map(({ by, kind, text, buttons }) => ({
    by,
    kind,
    text,
    buttons: buttons.flat().map((button) => button.text),
  }));
}

function countBy<T>(things: readonly T[], key: (thing: T) => string): Record<string, number> {
  const counts: Record<string, number> = {};
  for (const thing of things) counts[key(thing)] = (counts[key(thing)] ?? 0) + 1;
  return counts;
}
