import type { Fold } from '../record/fold.js';
import { readState } from '../record/fold.js';
import type { NewEvent, Person, ShopRecord, StreamId } from '../record/types.js';
import { readWords } from '../record/words.js';
import { policyOf } from '../shop/state.js';
import type { DeskDeps } from './deps.js';
import { CONTACT, JOB, SHOP } from './folds.js';
import type { Standing, Store } from './store.js';

/** How the desk comes to know what stands in the record. */
export type Reads = Pick<Store, 'shop' | 'job' | 'contact'> & {
  people: () => Promise<Person[]>;
  /** Something was added to a stream, or to the people. */
  outdated: (what: StreamId | 'people') => void;
};

/** Reads what stands in the record at each call. */
export function readAnew({ record, policyFromFile }: DeskDeps): Reads {
  return {
    shop: async () => {
      const found = await standing(record, 'shop', SHOP);
      return { ...found, policy: policyOf(found.state, policyFromFile) };
    },
    job: async (id) => ({ id, ...(await standing(record, `job-${id}`, JOB)) }),
    contact: (id) => standing(record, `contact-${id}`, CONTACT),
    people: () => record.people.all(),
    outdated: () => undefined,
  };
}

async function standing<State, Event extends NewEvent>(
  record: ShopRecord,
  stream: StreamId,
  fold: Fold<State, Event>,
): Promise<Standing<State>> {
  const [{ state }, texts] = await Promise.all([readState(record, stream, fold), readWords(record, stream)]);
  return { state, texts };
}
