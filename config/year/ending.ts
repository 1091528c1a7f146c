import { join } from 'node:path';
import type { Put } from './answers.js';
import { answersTo } from './answers.js';
import { allEvents, allWords, messagesKept } from './messages-kept.js';
import type { Policy } from '../../src/shop/policy.js';
import { readShopFile } from '../shop-file.js';
import { placesOf, wokenTooLate } from './invariants/due.js';
import type { InboxState, ShopRecord } from '../../src/record/types.js';
import type { Stage } from '../demo/stage.js';
import type { Kept } from './invariants/acknowledged.js';
import {
  keptOfStrangers,
  leftOf,
  mayBeForgotten,
  neverSaid,
  notKeptOnce,
} from './invariants/acknowledged.js';
import { neverSent } from './invariants/once.js';
import type { Told } from './invariants/told-once.js';
import { markedWithoutCause, notAsRecorded, toldTwice } from './invariants/told-once.js';
import type { Act, Happened } from './journal.js';
import type { ForgottenOne } from './ledger.js';
import type { Dice } from './names.js';
import type { Versions } from './told-again.js';
import { notAnsweredAsBefore, someOfAll, tellAgain } from './told-again.js';

/** How many messages the record has as perhaps repeated. */
export async function countMarked(record: ShopRecord): Promise<number> {
  const told = await messagesKept(record);
  return told.flatMap(({ kept }) => kept).filter(({ perhapsRepeated }) => perhapsRepeated).length;
}

/**
 * Tells the bot again of something of everything that people did; what comes of it that must not, a sentence each. What went with
 * somebody `forgotten` is left out: nothing is known of it any more.
 */
export async function sayAgain(
  stage: Pick<Stage, 'record' | 'rehearsal' | 'driver'>,
  happened: readonly Happened[],
  dice: Dice,
  forgotten: readonly ForgottenOne[] = [],
): Promise<string[]> {
  const before = await versionsOf(stage.record);
  const kept = await keptOf(stage.record, happened, []);
  const known = kept.filter((each) => !mayBeForgotten(each, forgotten)).map(({ act }) => act);
  const sent = sentIn(await messagesKept(stage.record));
  const answersNow = (act: Act): Put[] => {
    const answers = answersTo(happened, act, sent);
    const theirs = forgotten.find(({ chat, at }) => chat === act.chat && act.at <= at * 1000);
    return theirs === undefined ? answers : asStranger(happened, act, answers);
  };
  const acts = someOfAll(known, dice).map((act) => ({ act, answers: answersNow(act) }));
  const told = await tellAgain(stage, happened, acts);
  return notAnsweredAsBefore(told, before, await versionsOf(stage.record));
}

async function keptOf(
  record: ShopRecord,
  happened: readonly Happened[],
  events: Parameters<typeof leftOf>[1],
): Promise<Kept[]> {
  const inboxOf = await inboxesOf(record, happened);
  return leftOf(happened, events).map(({ act, left }) => ({
    ...{ act, left, answers: answersTo(happened, act), inbox: inboxOf(act.update) },
  }));
}

/** What may be answered to something that somebody said before they were forgotten: what was, or what they were answered since. */
function asStranger(happened: readonly Happened[], { chat, how }: Act, answers: readonly Put[]): Put[] {
  const last = happened.findLast((entry): entry is Act => entry.kind === 'act' && entry.chat === chat);
  return how === 'message' && last !== undefined ? [...answers, ...answersTo(happened, last)] : [];
}

async function inboxesOf(
  { inbox }: Pick<ShopRecord, 'inbox'>,
  happened: readonly Happened[],
): Promise<(update: number) => InboxState> {
  const found = new Map<number, InboxState>();
  for (const entry of happened)
    if (entry.kind === 'act') found.set(entry.update, await inbox.find(`u${entry.update}`));
  return (update) => found.get(update) ?? { state: 'new' };
}

/** Whether the record has a text in a chat as a message that was sent there. */
function sentIn(told: readonly Told[]): (put: Put) => boolean {
  const sent = new Set(
    told.flatMap(({ chat, kept }) => kept.map((out) => `${chat} ${out.chatMessage ?? ''}`)),
  );
  return ({ chat, message }) => sent.has(`${chat} ${message}`);
}

async function versionsOf(record: ShopRecord): Promise<Versions> {
  const streams = await record.streams();
  const versions = await Promise.all(
    streams.map(async (stream) => [stream, (await record.events(stream)).version] as const),
  );
  return Object.fromEntries(versions);
}

async function policyIn(folder: string): Promise<Policy> {
  const read = await readShopFile(join(folder, 'shop.yaml'));
  if (!read.ok) throw new Error(read.problems.join('\n'));
  return read.policy;
}

type Looking = {
  /** Those who were forgotten: what quoted them went with them. (Default: nobody was) */
  forgotten?: readonly ForgottenOne[];
  /** Whether the shop knew who did it: of others it keeps nothing, which is looked at. (Default: it knew everybody) */
  isKnown?: (act: Act) => boolean;
};

/** What does not hold of a play that has ended, a sentence each. */
export async function lookBack(
  { record, driver, folder }: Pick<Stage, 'record' | 'driver' | 'folder'>,
  happened: readonly Happened[],
  { forgotten = [], isKnown = () => true }: Looking = {},
): Promise<string[]> {
  const [told, events] = [await messagesKept(record), await allEvents(record)];
  const kept = await keptOf(record, happened, events);
  const known = kept.filter(({ act }) => isKnown(act));
  const unknown = kept.filter(({ act }) => !isKnown(act));
  return [
    ...notKeptOnce(known, forgotten),
    ...keptOfStrangers(unknown, {
      words: await allWords(record),
      people: await record.people.all(),
      said: known.map(({ act }) => act.text),
    }),
    ...neverSaid(happened, events),
    ...told.flatMap(({ who, kept: out }) => neverSent(who, out)),
    ...told.flatMap((each) => [...toldTwice(happened, each), ...notAsRecorded(happened, each)]),
    ...markedWithoutCause(happened, told),
    ...wokenTooLate(await placesOf(record, await policyIn(folder), driver.now())),
  ];
}
