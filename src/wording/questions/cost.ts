import type { Item } from '../../job/state.js';
import { totalOf } from '../../job/work.js';
import type { Job, Speaker } from '../answer.js';
import { total } from '../figures.js';
import { agreementWords, costWords, decisionWords, sumsOf } from '../item-words.js';
import type { Line } from '../lines.js';
import { bold, counted } from '../lines.js';
import { itemName } from '../things.js';
import type { Ask, Reply } from './ask.js';
import { itemsAsked, namesItem, notListed } from './ask.js';

/** What a thing costs, or what the job comes to by what was said so far. */
export function cost(ask: Ask, speaker: Speaker): Reply {
  if (!namesItem(ask)) return { lines: ask.jobs.flatMap((job) => jobCost(job, speaker)) };
  const lines = ask.jobs.flatMap(({ state }) =>
    itemsAsked(state, ask).map((item): Line => itemCost(item, speaker)),
  );
  return lines.length > 0 ? { lines } : notListed(ask);
}

function itemCost(item: Item, speaker: Speaker): Line {
  const words = costWords(item);
  const answer = agreementWords(item, speaker);
  const owner = answer === '' ? '' : ` Owner: ${answer}.`;
  return [bold(itemName(item, speaker)), `: ${words === '' ? 'no price said yet' : words}.${owner}`];
}

function jobCost({ state }: Job, speaker: Speaker): Line[] {
  const priced = Object.values(state.items).filter(({ cost: price }) => price !== null);
  const title = bold(state.title);
  if (priced.length === 0) return [[title, ': no prices said yet.']];
  const worth = (some: readonly Item[]): string => total(sumsOf(some), speaker.currency);
  const refused = priced.filter(({ agreement }) => agreement.status === 'no');
  const counting = priced.filter((item) => !refused.includes(item));
  const agreed = counting.filter(({ agreement }) => agreement.status === 'yes');
  const unpriced = Object.values(state.items).filter(
    ({ cost: price, remedy }) => price === null && (remedy === 'replace' || remedy === 'send-out'),
  );
  const about = counting.some(({ cost: price }) => price?.about === true) ? 'about ' : '';
  const vat = counting.some(({ cost: price }) => price?.vat === 'plus')
    ? ', VAT to be added where it says so'
    : '';
  return [
    [title, `: ${about}${worth(counting)} by what was said so far${vat}.`],
    `The owner has said yes to ${worth(agreed)} of it.`,
    ...(unpriced.length > 0
      ? [`No price yet for ${counted(unpriced.length, 'thing')} to be bought or sent out.`]
      : []),
    ...[...counting]
      .sort((a, b) => (totalOf(b) ?? 0) - (totalOf(a) ?? 0))
      .map((item) => `• ${itemName(item, speaker)}: ${costWords(item)}`),
    ...refused.map((item) => `• ${itemName(item, speaker)}: ${decisionWords(item)}; the owner said no`),
  ];
}
