import type { RecordedJobEvent } from '../../src/job/evolve.js';
import { CONTACT, JOB, SHOP } from '../../src/desk/folds.js';
import type { RecordedShopEvent } from '../../src/shop/state.js';
import { evolveShop, NEW_SHOP } from '../../src/shop/state.js';
import { readState } from '../../src/record/index.js';
import { messagesKept } from './messages-kept.js';
import type { Recorded, StreamId } from '../../src/record/types.js';
import type { SupplierRole } from './cast.js';
import { surname } from './cast.js';
import { isClosed } from './ledger.js';
import type { RecordedContactEvent } from '../../src/contact/state.js';
import { evolveContact, NEW_CONTACT } from '../../src/contact/state.js';
import { leftOf, notLeft } from './invariants/acknowledged.js';
import { neverSent } from './invariants/once.js';
import { SAYINGS } from './invariants/sayings.js';
import type { ChatOf } from './invariants/messages.js';
import { askedAfterAnswer, moreThanOneADay, outsideHours, shownOthers } from './invariants/messages.js';
import { notAsPolicySays } from './invariants/asked.js';
import { notNudged } from './invariants/expected-mechanics.js';
import { gateUntold, notToldAsReleased } from './invariants/expected-owners.js';
import { passedBy, passedInTheWay } from './invariants/gate-rules.js';
import { dateOf } from '../demo/shop-time.js';
import {
  leftInOutbox,
  otherThanFolded,
  outOfOrder,
  passedTwice,
  passedWhileBlocked,
  unlikeItsFold,
} from './invariants/record.js';
import { markedWithoutCause, notAsRecorded, toldTwice, withoutRepeats } from './invariants/told-once.js';
import type { Happened } from './journal.js';
import { duesAmiss } from './watch-dues.js';
import type { World } from './world.js';
import { isKnown } from './world.js';

/** Looks after each day whether all that must hold does; gives what does not, a sentence each. */
export function makeWatch(world: World, happened: readonly Happened[]): () => Promise<string[]> {
  const { answers, notes } = world;
  const seen = new Map<StreamId, number>();
  return async () => {
    const chats = chatsOf(world);
    const { record } = world.stage;
    const told = await messagesKept(record);
    const breaches = chats.flatMap((chat) => [
      ...outsideHours(chat),
      // One that the record has as perhaps repeated is no second one.
      ...moreThanOneADay(withoutRepeats(happened, told, chat)),
      ...shownOthers(chat),
      ...askedAfterAnswer(chat, answers),
      ...notAsPolicySays(chat, notes, world.stage.driver.now()),
    ]);
    const today = dateOf(world.stage.driver.now());
    for (const { user, messages } of isClosed(world.ledger.closed, today) ? [] : world.mechanics) {
      breaches.push(...notNudged(user.first_name, messages(), notes, today));
    }
    breaches.push(
      ...told.flatMap((each) => [...toldTwice(happened, each), ...notAsRecorded(happened, each)]),
    );
    breaches.push(...markedWithoutCause(happened, told), ...(await lostOnTheWay(world, happened)));
    breaches.push(...(await leftInOutbox(record)), ...(await outOfOrder(record)));
    const known: { id: string; title: string }[] = [];
    for (const stream of await record.streams()) {
      const { events, version } = await record.events(stream);
      if (!stream.startsWith('job-')) {
        breaches.push(...(await foldedOtherwise(world, stream, events)));
        continue;
      }
      breaches.push(
        ...passedWhileBlocked(stream, events as unknown as RecordedJobEvent[], seen.get(stream) ?? 0),
      );
      const { state } = await readState(record, stream, JOB);
      known.push({ id: stream.slice('job-'.length), title: state.title });
      breaches.push(...gateBreaches(world, stream, state.title, events, seen.get(stream) ?? 0));
      breaches.push(...unlikeItsFold(stream, state, events as unknown as RecordedJobEvent[]));
      seen.set(stream, version);
    }
    return [...breaches, ...duesAmiss(world, happened, known)];
  };
}

/** Gates against what the shop itself knew as they were passed. */
function gateBreaches(
  { jobs, notes, passes, released }: World,
  stream: StreamId,
  title: string,
  events: readonly Recorded[],
  after: number,
): string[] {
  const job = { job: stream.slice('job-'.length), title };
  const passed = passedBy(job, passes, events as unknown as RecordedJobEvent[], after);
  const owner = jobs.find((run) => run.title === title)?.owner;
  const chat = owner?.chat?.messages() ?? null;
  // One that a later word made idle is let go no more.
  const idle = new Set(
    events.flatMap(({ type, data }) =>
      type === 'notice-dropped' ? [(data as { notice: string }).notice] : [],
    ),
  );
  const theirs = released.filter((each) => each.job === job.job && !idle.has(each.notice));
  const told =
    owner === undefined || chat === null
      ? []
      : [
          ...notToldAsReleased(owner.name, chat, theirs),
          ...gateUntold(
            owner.name,
            chat,
            passes.filter((each) => each.job === job.job && passed.some(({ gate }) => gate === each.gate)),
          ),
        ];
  return [...passedInTheWay(passed, notes), ...passedTwice(title, events), ...told];
}

/** The shop's stream and people's, kept from read to read, against all their events folded afresh. */
async function foldedOtherwise(
  { stage: { record } }: World,
  stream: StreamId,
  events: readonly Recorded[],
): Promise<string[]> {
  if (stream === 'shop') {
    const { state } = await readState(record, stream, SHOP);
    return otherThanFolded(
      stream,
      state,
      (events as unknown as RecordedShopEvent[]).reduce(evolveShop, NEW_SHOP),
    );
  }
  const { state } = await readState(record, stream, CONTACT);
  return otherThanFolded(
    stream,
    state,
    (events as unknown as RecordedContactEvent[]).reduce(evolveContact, NEW_CONTACT),
  );
}

/** What was said stands in the record as what it is, and what was to go went. */
async function lostOnTheWay(world: World, happened: readonly Happened[]): Promise<string[]> {
  const { record } = world.stage;
  const streams = await record.streams();
  const loaded = await Promise.all(
    streams.map(async (stream) => ({ stream, ...(await record.events(stream)) })),
  );
  const left = leftOf(
    happened,
    loaded.flatMap(({ events }) => events),
  );
  const out = loaded.filter(({ stream }) => stream.startsWith('contact-'));
  return [
    ...notLeft(
      left.filter(({ act }) => isKnown(world, act)),
      SAYINGS,
    ),
    ...out.flatMap(({ stream, events }) => {
      const { messages } = (events as unknown as RecordedContactEvent[]).reduce(evolveContact, NEW_CONTACT);
      return neverSent(stream, Object.values(messages));
    }),
  ];
}

function chatsOf({ jobs, suppliers }: World): ChatOf[] {
  const titles = jobs.map(({ title }) => title);
  // A surname alone would give somebody away as well.
  const people = [...jobs.map(({ owner }) => surname(owner)), ...suppliers.map(({ name }) => name)];
  const owners = jobs.flatMap(({ title, owner }): ChatOf[] =>
    owner.chat === null
      ? []
      : [
          {
            ...{ who: owner.name, part: 'owner', chatId: owner.chat.chatId, messages: owner.chat.messages() },
            foreign: [...titles, ...people].filter((name) => name !== title && name !== surname(owner)),
          },
        ],
  );
  const theirs = suppliers.flatMap((supplier): ChatOf[] =>
    supplier.chat === null
      ? []
      : [
          {
            ...{
              who: supplier.name,
              part: 'supplier',
              chatId: supplier.chat.chatId,
              messages: supplier.chat.messages(),
            },
            foreign: [...foreignTitles(jobs, supplier), ...people.filter((name) => name !== supplier.name)],
          },
        ],
  );
  return [...owners, ...theirs];
}

/** Machines of which the supplier never had a thing. */
const foreignTitles = (jobs: World['jobs'], supplier: SupplierRole): string[] =>
  jobs.filter(({ dealtWith }) => !dealtWith.has(supplier)).map(({ title }) => title);
