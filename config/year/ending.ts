import { join } from 'node:path';
import { allEvents, messagesKept } from './messages-kept.js';
import type { Policy } from '../../src/shop/policy.js';
import { readShopFile } from '../shop-file.js';
import { placesOf, wokenTooLate } from './invariants/due.js';
import type { InboxState, ShopRecord } from '../../src/record/types.js';
import type { Stage } from '../demo/stage.js';
import { leftOf, neverSaid, notKeptOnce } from './invariants/acknowledged.js';
import { neverSent } from './invariants/once.js';
import { markedWithoutCause, notAsRecorded, toldTwice } from './invariants/told-once.js';
import type { Act, Happened } from './journal.js';
import type { Dice } from './names.js';
import type { Versions } from './told-again.js';
import { notAnsweredAsBefore, someOfAll, tellAgain } from './told-again.js';

/** How many messages the record has as perhaps repeated. */
export async function countMarked(record: ShopRecord): Promise<number> {
  const told = await messagesKept(record);
  return told.flatMap(({ kept }) => kept).filter(({ perhapsRepeated }) => perhapsRepeated).length;
}

/**
 * Tells the bot again of something of everything that people did; what comes of it that must not, a sentence each. `forgotAt` as in
 * `lookBack`.
 */
export async function sayAgain(
  stage: Pick<Stage, 'record' | 'rehearsal' | 'driver'>,
  happened: readonly Happened[],
  dice: Dice,
  forgotAt: number | null = null,
): Promise<string[]> {
  const before = await versionsOf(stage.record);
  const since = happened.filter(({ at }) => forgotAt === null || at > forgotAt);
  const told = await tellAgain(stage, happened, someOfAll(since, dice));
  return notAnsweredAsBefore(told, before, await versionsOf(stage.record));
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
  /** When somebody was last forgotten, Unix milliseconds. (Default: nobody was) */
  forgotAt?: number | null;
  /** Whether the shop knew who did it: of others it keeps nothing. (Default: it knew everybody) */
  isKnown?: (act: Act) => boolean;
};

/** What does not hold of a play that has ended, a sentence each. */
export async function lookBack(
  { record, driver, folder }: Pick<Stage, 'record' | 'driver' | 'folder'>,
  happened: readonly Happened[],
  { forgotAt = null, isKnown = () => true }: Looking = {},
): Promise<string[]> {
  const [told, events] = [await messagesKept(record), await allEvents(record)];
  const updates = happened.flatMap((entry) => (entry.kind === 'act' ? [entry.update] : []));
  const found = new Map<number, InboxState>();
  for (const update of updates) found.set(update, await record.inbox.find(`u${update}`));
  const kept = leftOf(happened, events).map((each) => ({
    ...each,
    inbox: found.get(each.act.update) ?? { state: 'new' as const },
  }));
  return [
    ...notKeptOnce(
      kept.filter(({ act }) => isKnown(act)),
      forgotAt,
    ),
    ...neverSaid(happened, events),
    ...told.flatMap(({ who, kept: out }) => neverSent(who, out)),
    ...told.flatMap((each) => [...toldTwice(happened, each), ...notAsRecorded(happened, each)]),
    ...markedWithoutCause(happened, told),
    ...wokenTooLate(await placesOf(record, await policyIn(folder), driver.now())),
  ];
}
