import { isTrade } from '../../trade/processes.js';
import type { ItemReading } from '../../hearing/reading.js';
import type { JobState } from '../../job/state.js';
import { isOut } from '../../job/state.js';
import type { Change } from '../store.js';
import type { Person } from '../../record/types.js';
import type { ShopState } from '../../shop/state.js';
import { addPerson, peopleMeant, peopleNamed } from '../people.js';
import type { Workplace } from '../workplace.js';

/**
 * The supplier meant, by id; somebody new is added to the shop's people under the name said. Of several of one
 * trade, the one who has the job's things is meant, else the one used last.
 */
export async function supplierMeant(
  place: Workplace,
  item: ItemReading,
  job: JobState,
  change: Change,
): Promise<string | null> {
  if (item.supplier === null) return null;
  const [{ state: shop }, people] = await Promise.all([place.store.shop(), place.deps.record.people.all()]);
  const meant = peopleMeant(item.supplier, shop, people, 'supplier');
  const [only, ...more] = meant;
  if (only !== undefined && more.length === 0) return only;
  if (only !== undefined) return likeliest(meant, job);
  if (!DEALS.includes(item.act) && isKnownOtherwise(item.supplier, shop, people)) return null;
  const id = `supplier-${change.commandId}`;
  const name = item.supplier;
  await addPerson(
    place.deps,
    place.store,
    {
      id,
      name,
      role: 'supplier',
      processes: item.processes,
      trades: isTrade(name) ? [name] : [],
      phone: null,
    },
    change,
  );
  return id;
}

/** What is said of those who were never suppliers makes them one only where things go to them, or come from them. */
const DEALS: readonly ItemReading['act'][] = ['sent', 'ordered', 'back'];

/** 'Dale rang' is of the owner, Mrs Dale. */
function isKnownOtherwise(said: string, shop: ShopState, people: readonly Person[]): boolean {
  return (['owner', 'mechanic'] as const).some((role) => peopleNamed(said, shop, people, role).length > 0);
}

function likeliest(meant: readonly string[], job: JobState): string | null {
  const lines = Object.values(job.lines).filter(
    (line) => line.supplier !== null && meant.includes(line.supplier),
  );
  return (lines.findLast(isOut) ?? lines.at(-1))?.supplier ?? meant[0] ?? null;
}
