import type { ContactEvent } from '../contact/events.js';
import type { ContactState } from '../contact/state.js';
import type { JobCommand, Refusal } from '../job/commands.js';
import type { RecordedJobEvent } from '../job/evolve.js';
import type { JobEvent } from '../job/events.js';
import type { JobState } from '../job/state.js';
import type { Effect } from '../record/types.js';
import type { Policy } from '../shop/policy.js';
import type { ShopCommand, ShopRefusal } from '../shop/decide.js';
import type { ShopState } from '../shop/state.js';

/** A stream as it stands: its state and the words kept beside it. */
export type Standing<State> = { state: State; texts: ReadonlyMap<string, string> };

export type JobStanding = Standing<JobState> & { id: string };

/** What is known of a change besides what it says: its id (said twice is seen), when, who, in which chat message. */
export type Change = {
  commandId: string;
  at: number;
  by: string;
  message?: string;
  texts?: Readonly<Record<string, string>>;
  effects?: readonly Effect[];
};

export type JobOutcome = JobStanding & {
  before: JobState;
  events: readonly RecordedJobEvent[];
  refused: readonly { command: number; refusal: Refusal }[];
};

export type Store = {
  shop: () => Promise<Standing<ShopState> & { policy: Policy }>;
  job: (id: string) => Promise<JobStanding>;
  contact: (id: string) => Promise<Standing<ContactState>>;
  /**
   * Decides and appends, all or none; refused commands stand beside what was done. The job's place in the due index goes with
   * it. `foresee` is shown the outcome while it is being appended: where it comes to that, the state is the same object.
   */
  toJob: (
    id: string,
    change: Change,
    commands: readonly JobCommand[],
    foresee?: (outcome: JobOutcome) => void,
  ) => Promise<JobOutcome>;
  toShop: (change: Change, command: ShopCommand) => Promise<{ refusal: ShopRefusal } | Standing<ShopState>>;
  /** Events for a person's stream; `decide` may look at what is there and add nothing. */
  toContact: (
    id: string,
    change: Change,
    decide: (state: ContactState) => readonly ContactEvent[],
  ) => Promise<Standing<ContactState>>;
  /**
   * Puts the job where it belongs in the due index, after something else than its own events changed what is due. What
   * was tried at `triedAt` and could not be said then is put where it next can be.
   */
  reindex: (job: string, triedAt?: number) => Promise<void>;
};

export type { JobEvent };
