import { isOut } from '../../job/state.js';
import type { Job, Speaker } from '../answer.js';
import { outWhere, promiseWords } from '../outside.js';
import { whereabouts } from '../item-words.js';
import type { Line } from '../lines.js';
import { bold, capital, joined } from '../lines.js';
import { itemName } from '../things.js';
import type { Ask, Reply } from './ask.js';
import { itemsAsked, namesItem, notListed } from './ask.js';

/** Where a thing is; without one, where everything is that is out or put away. */
export function where(ask: Ask, speaker: Speaker): Reply {
  if (ask.container !== null) return keptIn(ask, ask.container, speaker);
  if (!namesItem(ask)) return { lines: ask.jobs.flatMap((job) => everywhere(job, ask, speaker)) };
  const lines = ask.jobs.flatMap(({ state }) =>
    itemsAsked(state, ask).map((item): Line => {
      const machine = ask.jobs.length > 1 ? `, ${state.title}` : '';
      return [bold(`${itemName(item, speaker)}${machine}`), `: ${whereabouts(state, item, speaker)}.`];
    }),
  );
  return lines.length > 0 ? { lines } : notListed(ask);
}

/** What is in a bag, box or tin, machine by machine: nothing that has gone out since. */
function keptIn({ jobs }: Ask, container: string, speaker: Speaker): Reply {
  const lines = jobs.flatMap(({ state }): Line[] => {
    const out = new Set(
      Object.values(state.lines)
        .filter(isOut)
        .map(({ item }) => item),
    );
    const inside = Object.values(state.items).filter(
      ({ number, stored }) => stored?.toLowerCase() === container.toLowerCase() && !out.has(number),
    );
    const names = inside.map((item) => itemName(item, speaker));
    return names.length === 0 ? [] : [[bold(`${capital(container)}, ${state.title}`), `: ${joined(names)}.`]];
  });
  return { lines: lines.length > 0 ? lines : [`I was told of nothing in ${container}.`] };
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
