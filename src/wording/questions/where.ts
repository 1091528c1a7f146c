import { isOut } from '../../job/state.js';
import type { Job, Speaker } from '../answer.js';
import { outWhere, promiseWords } from '../outside.js';
import { whereabouts } from '../item-words.js';
import type { Line } from '../lines.js';
import { bold } from '../lines.js';
import { itemName } from '../things.js';
import type { Ask, Reply } from './ask.js';
import { itemsAsked, namesItem, notListed } from './ask.js';

/** Where a thing is; without one, where everything is that is out or put away. */
export function where(ask: Ask, speaker: Speaker): Reply {
  if (!namesItem(ask)) return { lines: ask.jobs.flatMap((job) => everywhere(job, ask, speaker)) };
  const lines = ask.jobs.flatMap(({ state }) =>
    itemsAsked(state, ask).map((item): Line => {
      const machine = ask.jobs.length > 1 ? `, ${state.title}` : '';
      return [bold(`${itemName(item, speaker)}${machine}`), `: ${whereabouts(state, item, speaker)}.`];
    }),
  );
  return lines.length > 0 ? { lines } : notListed(ask);
}

function everywhere({ state }: Job, { suppliers }: Ask, speaker: Speaker): Line[] {
  const out = Object.values(state.lines)
    .filter(isOut)
    .filter(({ supplier }) => suppliers.length === 0 || (supplier !== null && suppliers.includes(supplier)));
  const rows = out.flatMap((line): Line[] => {
    const item = state.items[line.item];
    return item
      ? [`• ${itemName(item, speaker)}: ${outWhere(line, speaker)}, ${promiseWords(line, speaker)}`]
      : [];
  });
  return rows.length === 0
    ? [[bold(state.title), ': nothing is out. Ask for one thing, as in “where is 12?”, or say “list”.']]
    : [[bold(state.title), ': out are'], ...rows];
}
