import type { Finding, Item, JobState } from '../job/state.js';
import { openLineOf } from '../job/state.js';
import { totalOf } from '../job/work.js';
import type { Speaker } from './answer.js';
import { dayOf, measured, money, sum } from './figures.js';
import { counted } from './lines.js';
import { outWords } from './outside.js';
import { conditionName, remedyName } from './terms.js';
import { storedIn } from './things.js';

/** Where a thing is: 'fitted', 'in bag 14', 'with Harl & Dunn … promised for …', 'on the machine'. */
export function whereabouts(state: JobState, item: Item, speaker: Speaker): string {
  const line = openLineOf(state, item.number);
  if (line && line.kind === 'sublet') return outWords(line, speaker);
  const coming = line ? `; the new one ${outWords(line, speaker)}` : '';
  if (item.fitted) return 'fitted';
  if (item.stored !== null) return `${storedIn(item.stored)}${coming}`;
  if (item.takenOff) return `off the machine, nobody said where${coming}`;
  return `on the machine, as far as I was told${coming}`;
}

/** What was seen and measured: 'pitted, diameter 34.92 mm, 2 photos'; empty where only words were said. */
export function findingWords({
  conditions,
  readings,
  attachments,
}: Pick<Finding, 'conditions' | 'readings' | 'attachments'>): string {
  const photos = attachments.filter(({ kind }) => kind === 'photo').length;
  const voices = attachments.filter(({ kind }) => kind === 'voice').length;
  const documents = attachments.filter(({ kind }) => kind === 'document').length;
  return [
    ...conditions.map(conditionName),
    ...measured(readings),
    ...(photos > 0 ? [counted(photos, 'photo')] : []),
    ...(voices > 0 ? [counted(voices, 'voice note')] : []),
    ...(documents > 0 ? [counted(documents, 'file')] : []),
  ].join(', ');
}

/** What was decided and what it costs: 'replace, about £80'; empty where nothing was. */
export function decisionWords(item: Item): string {
  const remedy = item.remedy === null ? [] : [remedyName(item.remedy, item.processes)];
  const cost = item.cost === null ? [] : [money(item.cost)];
  return [...remedy, ...cost].join(', ');
}

/** What the owner said: 'yes on 2 March, up to £80'; empty where they were not asked. */
export function agreementWords({ agreement, cost }: Item, speaker: Speaker): string {
  switch (agreement.status) {
    case 'not-asked':
      return '';
    case 'asked':
      return `asked on ${dayOf(agreement.at, speaker)}, no answer yet`;
    case 'yes': {
      const currency = cost?.currency ?? speaker.currency;
      const upTo = agreement.upTo === null ? '' : `, up to ${sum(agreement.upTo, currency)}`;
      return `yes on ${dayOf(agreement.at, speaker)}${upTo}`;
    }
    case 'no':
      return `no on ${dayOf(agreement.at, speaker)}`;
    case 'talk':
      return `wants to talk about it, ${dayOf(agreement.at, speaker)}`;
  }
}

/** The whole of an item's cost: '£25 each, £50 in all'; empty where none was said. */
export function costWords(item: Item): string {
  if (item.cost === null) return '';
  const total = totalOf(item);
  const all = item.cost.each && total !== null && total !== item.cost.amount;
  return all ? `${money(item.cost)}, ${sum(total, item.cost.currency)} in all` : money(item.cost);
}

/** What items come to, each as a sum with its currency; those without a price are left out. */
export function sumsOf(items: readonly Item[]): { amount: number; currency: string }[] {
  return items.flatMap((item) =>
    item.cost === null ? [] : [{ amount: totalOf(item) ?? 0, currency: item.cost.currency }],
  );
}
