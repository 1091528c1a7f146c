import { DateTime } from 'luxon';
import { blockersOf } from '../../job/blockers.js';
import { buildOf } from '../../job/build-order.js';
import { onOffer } from '../../job/gates.js';
import type { Need } from '../../job/needs.js';
import { needOf } from '../../job/needs.js';
import type { Item, JobState } from '../../job/state.js';
import { stepForItem } from '../../job/template.js';
import { cautionById, cautionsFor, DEFER } from '../../trade/cautions/load.js';
import type { Gate } from '../../trade/terms.js';
import type { Speaker } from '../answer.js';
import { blockerLine } from '../blocking.js';
import type { Line } from '../lines.js';
import { bold, grouped, joined } from '../lines.js';
import { outWhere } from '../outside.js';
import { gateName, toBeDone } from '../terms.js';
import { itemName, stepName } from '../things.js';
import type { Told } from './told.js';
import { rulesOf } from './told.js';

/** What should be said besides what was recorded: gates that opened again, things out of order, cautions. */
export function remarks(told: Told, speaker: Speaker): Line[] {
  return [
    ...reopenedLines(told, speaker),
    ...outOfOrder(told, speaker),
    ...notReady(told, speaker),
    ...cautionLines(told),
  ];
}

function reopenedLines(told: Told, speaker: Speaker): Line[] {
  const { state, events } = told;
  return events.flatMap((event): Line[] => {
    if (event.type !== 'gate-reopened' || state.gates[event.data.gate].passed) return [];
    const { gate } = event.data;
    const [first, ...more] = blockersOf(state, gate, rulesOf(told));
    const why = first
      ? ` ${blockerLine(state, first, speaker)}${more.length > 0 ? `, and ${more.length} more` : ''}.`
      : '';
    return [[bold(`Open again: ${gateName(gate)}.`), why]];
  });
}

/** Steps and things that went on before what the build order puts first. */
function outOfOrder({ state, events }: Told, speaker: Speaker): Line[] {
  const steps = events.flatMap((event) => {
    if (event.type === 'step-fitted') return [event.data.step];
    const item = event.type === 'item-fitted' ? state.items[event.data.item] : undefined;
    return item ? [stepForItem(state.steps, item)] : [];
  });
  const early = [...new Set(steps)].flatMap((id) => {
    const step = state.steps.find((each) => each.id === id);
    const behind = state.steps.filter((each) => step?.after.includes(each.id) === true && !each.fitted);
    if (!step || behind.length === 0) return [];
    const before = joined(
      behind.map((each) => `“${stepName(each, speaker)}”`),
      3,
    );
    return [{ step: `“${stepName(step, speaker)}”`, before }];
  });
  return grouped(early, ({ before }) => before).map((same) => {
    const names = joined(same.map(({ step }) => step));
    const come = same.length === 1 ? 'comes' : 'come';
    return `Noted, though by the build order ${names} ${come} after ${same[0]?.before ?? ''}.`;
  });
}

/** Things fitted, by themselves or with their step, that by the list were not ready to be. */
function notReady(told: Told, speaker: Speaker): Line[] {
  const { before } = told;
  const unready = fittedNow(told).flatMap((item) => {
    const still = stillTo(needOf(before, item, rulesOf(told)), item, speaker);
    return still === '' ? [] : [{ name: itemName(item, speaker), still }];
  });
  return grouped(unready, ({ still }) => still).map((same) => {
    const names = joined(same.map(({ name }) => name));
    return `Noted, though still down as ${same[0]?.still ?? ''}: ${names}.`;
  });
}

/** Things as they stood, that this message fits; not those that it makes ready too. */
function fittedNow({ before, events }: Told): Item[] {
  const { itemsOf } = buildOf(before);
  const items = events.flatMap((event) => {
    if (event.type === 'item-fitted') return [event.data.item];
    if (event.type !== 'step-fitted') return [];
    return (itemsOf.get(event.data.step) ?? []).map(({ number }) => number);
  });
  const readied = events.flatMap((event) => {
    if (event.type === 'work-done') return [event.data.item];
    return event.type === 'line-returned' ? [before.lines[event.data.line]?.item] : [];
  });
  return [...new Set(items)].flatMap((number) => {
    const item = before.items[number];
    return item && !item.fitted && !readied.includes(number) ? [item] : [];
  });
}

function stillTo(need: Need, item: Item, speaker: Speaker): string {
  switch (need.kind) {
    case 'out':
      return outWhere(need.line, speaker);
    case 'work':
      return toBeDone(item.remedy, item.processes);
    case 'order':
      return 'to be ordered';
    case 'send':
      return 'to be sent out';
    case 'yes':
      return 'waiting for the owner’s yes';
    case 'look-again':
      return 'to be looked at again';
    case 'nothing':
    case 'look':
    case 'decide':
      return '';
  }
}

/** In full the first time on a machine, by its title after that; before it is ridden, what riding calls for. */
function cautionLines({ before, events }: Told): Line[] {
  const ids = events.flatMap((event) => (event.type === 'caution-given' ? [event.data.caution] : []));
  const given = [...new Set(ids)].map(cautionById).filter((caution) => caution !== null);
  const built = events.some((event) => event.type === 'gate-passed' && event.data.gate === 'reassembled');
  const known = new Set(Object.values(before.items).flatMap(({ cautions }) => cautions));
  const all = [...given, ...(built ? cautionsFor(RIDING) : [])];
  if (all.length === 0) return [];
  const lines = all.map(({ id, title, text, source }): Line => {
    if (known.has(id)) return [bold('Care, as before: '), `${title} (${source.body}).`];
    return [bold('Care: '), `${text} (${source.body}, ${source.reference})`];
  });
  return [...lines, DEFER];
}

const RIDING = {
  part: null,
  group: null,
  processes: [],
  remedy: null,
  conditions: [],
  act: 'tested',
} as const;

function isFirstOfDay(before: JobState, { today, zone }: Speaker): boolean {
  const midnight = DateTime.fromISO(today, { zone }).toMillis();
  return !Object.values(before.items).some(({ listedAt }) => listedAt >= midnight);
}

/** Gates that this message left with nothing in their way; stripped, which nothing ever blocks, once a day as things come off. */
export function gatesOffered(told: Told, speaker: Speaker): Gate[] {
  const { before, state, events } = told;
  const rules = rulesOf(told);
  const offeredBefore = before.status === 'none' ? [] : onOffer(before, rules);
  const takenOff = events.some(({ type }) => type === 'item-taken-off') && isFirstOfDay(before, speaker);
  return onOffer(state, rules).filter((gate) =>
    gate === 'stripped' ? takenOff : !offeredBefore.includes(gate),
  );
}
