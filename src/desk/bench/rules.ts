import type { Instruction } from '../../hearing/instructions/instruction.js';
import { parseRule, RULES } from '../../shop/rules.js';
import type { Answer } from '../../wording/answer.js';
import { noSuchPerson } from '../../wording/people.js';
import { awayText, closedText, ruleRefused, rulesText, ruleSet } from '../../wording/rules.js';
import { peopleMeant, peopleNamed } from '../people.js';
import type { Workplace } from '../workplace.js';
import type { Saying } from './carry-out.js';

export async function showRules(place: Workplace): Promise<Answer> {
  const { policy } = await place.store.shop();
  return rulesText(policy);
}

/** Sets one of the shop's rules by its number; what is due is reckoned anew. */
export async function setRule(
  place: Workplace,
  saying: Saying,
  { rule, value }: Extract<Instruction, { kind: 'set-rule' }>,
): Promise<Answer> {
  const meant = RULES[rule - 1];
  if (!meant) return ruleRefused({ problem: 'number', most: RULES.length });
  const parsed = parseRule(meant, value);
  if (parsed === undefined) return ruleRefused({ problem: 'value', rule: meant });
  const { path } = meant;
  return setPolicy(place, saying, [...path], parsed, async () =>
    ruleSet(meant, (await place.store.shop()).policy),
  );
}

/** Days on which the shop or a supplier is closed, or a mechanic is away. */
export async function setClosed(
  place: Workplace,
  saying: Saying,
  { who, from, to }: Extract<Instruction, { kind: 'closed' }>,
): Promise<Answer> {
  const [{ state: shop, policy }, people] = await Promise.all([
    place.store.shop(),
    place.deps.record.people.all(),
  ]);
  if (who === null) {
    const closed = [...policy.calendar.closed, { from, to }];
    return setPolicy(place, saying, ['calendar', 'closed'], closed, () =>
      Promise.resolve(closedText(null, from, to)),
    );
  }
  const mechanic = SPEAKER.test(who) ? saying.person : peopleNamed(who, shop, people, 'mechanic')[0];
  const person = mechanic ?? peopleMeant(who, shop, people, 'supplier')[0];
  if (person === undefined) return noSuchPerson(who);
  const usual = mechanic === undefined ? policy.supplier.calendar : policy.calendar;
  const calendar = shop.people[person]?.calendar ?? usual;
  const change = { commandId: `${saying.key}-closed`, at: saying.at, by: saying.person };
  await place.store.toShop(change, {
    type: 'set-calendar',
    of: person,
    calendar: { ...calendar, closed: [...calendar.closed, { from, to }] },
  });
  await reindexAll(place);
  const name = people.find(({ id }) => id === person)?.name ?? who;
  return mechanic === undefined ? closedText(name, from, to) : awayText(name, from, to);
}

/** 'I’m on holiday': whoever says so is meant. */
const SPEAKER = /^i(?:[’']?m| am)?$/i;

async function setPolicy(
  place: Workplace,
  saying: Saying,
  path: string[],
  value: unknown,
  say: () => Promise<Answer>,
): Promise<Answer> {
  const change = { commandId: `${saying.key}-rule`, at: saying.at, by: saying.person };
  const { policyFromFile } = place.deps;
  const done = await place.store.toShop(change, {
    type: 'set-policy',
    path,
    value,
    fromFile: policyFromFile,
  });
  if ('refusal' in done)
    return ruleRefused({ problem: 'refused', why: 'problem' in done.refusal ? done.refusal.problem : '' });
  await reindexAll(place);
  return say();
}

async function reindexAll({ store }: Workplace): Promise<void> {
  const { state } = await store.shop();
  for (const { id, open } of state.jobs) if (open) await store.reindex(id);
}
