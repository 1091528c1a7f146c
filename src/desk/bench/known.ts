import type { Known } from '../../hearing/listener.js';
import type { Item, JobState } from '../../job/state.js';
import { openLineOf } from '../../job/state.js';
import type { Person } from '../../record/types.js';
import type { ShopState } from '../../shop/state.js';

type Bench = {
  shop: ShopState;
  people: readonly Person[];
  /** The job on the bench and its state, when one is. */
  job: { id: string; state: JobState } | null;
  last: number | null;
};

/** What the reader may know: the shop's people, its machines and words, and the strip list of the job on the bench. */
export function knownTo({ shop, people, job, last }: Bench): Known {
  const named = (role: 'supplier' | 'owner'): { name: string; also: string[] }[] =>
    people
      .filter(({ id }) => shop.people[id]?.roles.includes(role))
      .map(({ id, name, also }) => ({ name, also: [...(also ?? []), ...(shop.people[id]?.trades ?? [])] }));
  const items = job ? Object.values(job.state.items).filter(hasPart) : [];
  const lastItem = items.find((item) => item.number === last);
  const nameOf = new Map(people.map(({ id, name }) => [id, name]));
  return {
    suppliers: named('supplier'),
    owners: named('owner'),
    machines: shop.jobs.filter(({ open }) => open).map(({ title }) => ({ name: title })),
    items: items.map((item) => {
      const supplier = job ? nameOf.get(openLineOf(job.state, item.number)?.supplier ?? '') : undefined;
      return {
        item: item.number,
        part: item.part,
        place: item.place,
        ...(supplier === undefined ? {} : { supplier }),
      };
    }),
    words: [...shop.words],
    ...(lastItem ? { last: { part: lastItem.part, place: lastItem.place, item: lastItem.number } } : {}),
  };
}

function hasPart(item: Item): item is Item & { part: string } {
  return item.part !== null;
}
