import type { ContactEvent } from '../contact/events.js';
import type { ContactState } from '../contact/state.js';
import { evolveContact, NEW_CONTACT } from '../contact/state.js';
import type { JobEvent } from '../job/events.js';
import { evolve } from '../job/evolve.js';
import { foldJob, needsRefold } from '../job/fold.js';
import type { JobState } from '../job/state.js';
import { NO_JOB } from '../job/state.js';
import type { Fold } from '../record/fold.js';
import type { ShopEvent } from '../shop/events.js';
import type { ShopState } from '../shop/state.js';
import { evolveShop, NEW_SHOP } from '../shop/state.js';

/** How the state of each kind of stream comes from its events; the record keeps states by these very objects. */
export const JOB: Fold<JobState, JobEvent> = {
  initial: NO_JOB,
  evolve: (state, event) => evolve(state, event),
  refoldOn: (event) => needsRefold(event),
  foldAll: (events) => foldJob(events),
};
export const SHOP: Fold<ShopState, ShopEvent> = { initial: NEW_SHOP, evolve: evolveShop };
export const CONTACT: Fold<ContactState, ContactEvent> = { initial: NEW_CONTACT, evolve: evolveContact };
