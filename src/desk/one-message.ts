import type { ShopRecord, StreamId } from '../record/types.js';
import type { DeskDeps } from './deps.js';
import { openStore } from './open-store.js';
import type { Reads } from './reads.js';
import { readAnew } from './reads.js';
import type { Workplace } from './workplace.js';

/**
 * The workplace for the time of one message: each stream is read once, and again only after the message itself added to
 * it. Decisions look at the newest state all the same.
 */
export function forOneMessage(deps: DeskDeps): Workplace {
  const { record } = deps;
  const reads = readOnce(readAnew(deps));
  const people: ShopRecord['people'] = {
    ...record.people,
    all: reads.people,
    put: async (id, person) => {
      await record.people.put(id, person);
      reads.outdated('people');
    },
    forget: async (id) => {
      const wasThere = await record.people.forget(id);
      reads.outdated('people');
      return wasThere;
    },
  };
  return { deps: { ...deps, record: { ...record, people } }, store: openStore(deps, reads) };
}

function readOnce(anew: Reads): Reads {
  const kept = new Map<StreamId | 'people', Promise<unknown>>();
  const once = <T>(what: StreamId | 'people', read: () => Promise<T>): Promise<T> => {
    const found = (kept.get(what) as Promise<T> | undefined) ?? read();
    kept.set(what, found);
    return found;
  };
  return {
    shop: () => once('shop', anew.shop),
    job: (id) => once(`job-${id}`, () => anew.job(id)),
    contact: (id) => once(`contact-${id}`, () => anew.contact(id)),
    people: () => once('people', anew.people),
    outdated: (what) => void kept.delete(what),
  };
}
