import type { Person } from '../record/types.js';
import type { Policy } from '../shop/policy.js';
import type { Speaker } from '../wording/answer.js';
import { FORGOTTEN_NAME } from '../wording/terms.js';

/** Gives wording the names and words that ids stand for, as of one moment. */
export function speakerFor(
  today: string,
  policy: Policy,
  people: readonly Person[],
  ...texts: readonly ReadonlyMap<string, string>[]
): Speaker {
  const byId = new Map(people.map((person) => [person.id, person]));
  return {
    today,
    zone: policy.zone,
    currency: policy.currency,
    name: (id) => byId.get(id)?.name ?? FORGOTTEN_NAME,
    said: (id) => texts.map((each) => each.get(id)).find((text) => text !== undefined) ?? '',
    phone: (id) => byId.get(id)?.phone ?? null,
  };
}
