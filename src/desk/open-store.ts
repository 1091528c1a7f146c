import type { ContactEvent } from '../contact/events.js';
import { contactEventSchemas } from '../contact/events.js';
import type { ContactState } from '../contact/state.js';
import type { Refusal } from '../job/commands.js';
import { decideAll } from '../job/decide.js';
import type { DueContext } from '../job/due.js';
import { nextDueAfter, nextDueAt } from '../job/due.js';
import type { JobEvent } from '../job/events.js';
import { jobEventSchemas } from '../job/events.js';
import type { JobState } from '../job/state.js';
import type { Committed, Consequences } from '../record/commit.js';
import { commit } from '../record/commit.js';
import type { Fold } from '../record/fold.js';
import { loadEvents, readState } from '../record/fold.js';
import { foldJob } from '../job/fold.js';
import { readWords } from '../record/words.js';
import type { NewEvent, ShopRecord, StreamId } from '../record/types.js';
import type { ShopRefusal } from '../shop/decide.js';
import { decideShop } from '../shop/decide.js';
import type { ShopEvent } from '../shop/events.js';
import { shopEventSchemas } from '../shop/events.js';
import type { ShopState } from '../shop/state.js';
import { policyOf } from '../shop/state.js';
import { todayOf } from './calendars.js';
import type { DeskDeps } from './deps.js';
import { dueContext } from './due-context.js';
import { assertShapes } from './event-shapes.js';
import { CONTACT, JOB, SHOP } from './folds.js';
import type { Change, JobOutcome, Standing, Store } from './store.js';

/** The shop's streams as the desk reads and changes them. */
export function openStore({ record, policyFromFile }: DeskDeps): Store {
  const shop: Store['shop'] = async () => {
    const found = await standing(record, 'shop', SHOP);
    return { ...found, policy: policyOf(found.state, policyFromFile) };
  };
  const job: Store['job'] = async (id) => ({ id, ...(await standing(record, `job-${id}`, JOB)) });
  const contact: Store['contact'] = (id) => standing(record, `contact-${id}`, CONTACT);

  const contextFor = async (id: string, state: JobState): Promise<DueContext> => {
    const [{ state: shopState, policy }, people] = await Promise.all([shop(), record.people.all()]);
    return dueContext({
      job: id,
      state,
      shop: shopState,
      policy,
      people,
      contact: async (person) => (await contact(person)).state,
    });
  };

  const toJob: Store['toJob'] = async (id, change, commands, foresee) => {
    const before = await job(id);
    const [{ policy }, context] = await Promise.all([shop(), contextFor(id, before.state)]);
    const bench = {
      today: todayOf(policy, change.at),
      at: change.at,
      by: change.by,
      rules: { ownerYesFrom: policy.owner.yesFrom },
    };
    let refused: JobOutcome['refused'] = [];
    let was = before.state;
    const committed = await commit<JobState, JobEvent, Refusal>(record, {
      stream: `job-${id}`,
      fold: JOB,
      ...bare(change),
      decide: (state) => {
        const decided = decideAll(state, commands, bench);
        assertShapes(decided.events, jobEventSchemas);
        refused = decided.refused;
        was = state;
        return { events: decided.events, ...consequences(change, decided.events) };
      },
      follow: (after) => scheduled(nextDueAt(after, context), change),
      foresee: (state, events) => {
        // Another was quicker: of what they said, the words are not here.
        if (was !== before.state) return;
        const texts = new Map([...before.texts, ...Object.entries(change.texts ?? {})]);
        foresee?.({ id, before: was, state, events, refused, texts });
      },
    });
    const after = landed(committed);
    const texts = await readWords(record, `job-${id}`);
    const [first] = after.events;
    if (after.outcome === 'seen' && first) {
      const then = await stateBefore(id, first.version);
      const again = decideAll(then, commands, bench);
      const state = await stateBefore(id, first.version + after.events.length);
      return { id, before: then, state, events: after.events, refused: again.refused, texts };
    }
    return { id, before: was, state: after.state, events: after.events, refused, texts };
  };

  /** The job as it stood before one of its events: what was carried out before is answered as it was then. */
  const stateBefore = async (id: string, version: number): Promise<JobState> => {
    const { events } = await loadEvents(record, `job-${id}`, JOB, 0);
    return foldJob(events.filter((event) => event.version < version));
  };

  const toShop: Store['toShop'] = async (change, command) => {
    const committed = await commit<ShopState, ShopEvent, ShopRefusal>(record, {
      stream: 'shop',
      fold: SHOP,
      ...bare(change),
      decide: (state) => {
        const decision = decideShop(state, command);
        if ('refusal' in decision) return decision;
        assertShapes(decision.events, shopEventSchemas);
        return { ...decision, ...consequences(change, decision.events) };
      },
    });
    if (committed.outcome === 'refused') return { refusal: committed.refusal };
    return { state: committed.state, texts: await readWords(record, 'shop') };
  };

  const toContact: Store['toContact'] = async (id, change, decide) => {
    const committed = await commit<ContactState, ContactEvent, never>(record, {
      stream: `contact-${id}`,
      fold: CONTACT,
      ...bare(change),
      decide: (state) => {
        const events = decide(state);
        assertShapes(events, contactEventSchemas);
        return { events, ...consequences(change, events) };
      },
    });
    return { state: landed(committed).state, texts: await readWords(record, `contact-${id}`) };
  };

  const reindex: Store['reindex'] = async (id, triedAt) => {
    const { state } = await job(id);
    const context = await contextFor(id, state);
    const next = triedAt === undefined ? nextDueAt(state, context) : nextDueAfter(state, context, triedAt);
    await record.due.set(`job-${id}`, next);
  };

  return { shop, job, contact, toJob, toShop, toContact, reindex };
}

async function standing<State, Event extends NewEvent>(
  record: ShopRecord,
  stream: StreamId,
  fold: Fold<State, Event>,
): Promise<Standing<State>> {
  const [{ state }, texts] = await Promise.all([readState(record, stream, fold), readWords(record, stream)]);
  return { state, texts };
}

const MINUTE_MS = 60_000;

/** The stream's place in the due index, and the wake that goes with it: at once for what is due already, else at the minute. */
function scheduled(dueAt: number | null, change: Change): Consequences {
  if (dueAt === null) return { dueAt };
  const minute = Math.ceil(dueAt / MINUTE_MS);
  const now = dueAt <= change.at;
  const id = now ? `wake-${change.commandId}` : `wake-${minute}`;
  return { dueAt, effects: [{ id, queue: 'wake', data: { at: now ? change.at : minute * MINUTE_MS } }] };
}

const bare = ({ commandId, at, by, message }: Change) => ({
  commandId,
  at,
  by,
  ...(message === undefined ? {} : { message }),
});

/** Words are kept with the events that name them; what came to nothing is kept by whoever said it (`keepWords`). */
const consequences = (
  { texts, effects }: Change,
  events: readonly NewEvent[],
): Consequences & { texts?: Readonly<Record<string, string>> } => ({
  ...(texts === undefined || events.length === 0 ? {} : { texts }),
  ...(effects === undefined ? {} : { effects }),
});

function landed<State, Event extends NewEvent>(
  committed: Committed<State, Event, unknown>,
): Extract<Committed<State, Event, unknown>, { state: State }> {
  if (committed.outcome === 'refused') throw new Error('a decision that refuses nothing was refused');
  return committed;
}
