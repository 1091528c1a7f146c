import type { Act } from '../../trade/cautions/load.js';
import { cautionsFor } from '../../trade/cautions/load.js';
import type { Process } from '../../trade/terms.js';
import type { Decided, JobCommand, Seen, Target } from '../commands.js';
import type { JobEvent } from '../events.js';
import { event } from '../events.js';
import type { Item } from '../state.js';
import type { Bench, Decision, Draft } from './draft.js';
import { add, done, startDraft } from './draft.js';
import { groupOf, itemNamed, targetItem } from './target.js';
import type { JobState } from '../state.js';
import { isDone } from '../work.js';

type CommandOf<T extends JobCommand['type']> = Extract<JobCommand, { type: T }>;

export function logFinding(state: JobState, command: CommandOf<'log-finding'>, bench: Bench): Decision {
  const targeted = targetItem(startDraft(state), command.target, bench);
  if ('refusal' in targeted) return targeted;
  return done(recordSeen(targeted.draft, targeted.item, command, bench));
}

export function takeOff(state: JobState, command: CommandOf<'take-off'>, bench: Bench): Decision {
  const targeted = targetItem(startDraft(state), command.target, bench);
  if ('refusal' in targeted) return targeted;
  const { item } = targeted;
  const off = add(targeted.draft, bench, event('item-taken-off', { item: item.number }));
  const sawSomething = command.conditions.length + command.readings.length + command.attachments.length > 0;
  const isDecided = command.remedy !== null || command.cost !== null;
  const told =
    sawSomething || isDecided
      ? recordSeen(off, item, command, bench)
      : storeIn(off, item, command.stored, bench);
  return done(warn(told, item.number, { act: 'stripped', processes: [] }, bench));
}

/** A finding with what was decided of it: the finding itself, where it lies, remedy, cost, and the cautions that work calls for. */
export function recordSeen(
  draft: Draft,
  item: Item,
  seen: Seen & Decided & { target: Target },
  bench: Bench,
): Draft {
  const finding = event('finding-logged', {
    item: item.number,
    conditions: seen.conditions,
    readings: seen.readings,
    place: seen.target.place,
    text: seen.text,
    attachments: seen.attachments,
  });
  const found = storeIn(add(draft, bench, finding), item, seen.stored, bench);
  return decideOn(found, item, seen, bench);
}

export function storeIn(draft: Draft, item: Item, stored: string | null, bench: Bench): Draft {
  return stored === null ? draft : add(draft, bench, event('item-stored', { item: item.number, stored }));
}

export function decideOn(draft: Draft, item: Item, decided: Decided, bench: Bench): Draft {
  const events: JobEvent[] = [];
  if (decided.remedy !== null) {
    events.push(
      event('remedy-decided', {
        item: item.number,
        remedy: decided.remedy,
        processes: decided.processes,
        supplier: decided.supplier,
      }),
    );
  }
  if (decided.cost !== null) events.push(event('cost-noted', { item: item.number, cost: decided.cost }));
  return warn(
    add(draft, bench, ...events),
    item.number,
    { act: 'finding', processes: decided.processes },
    bench,
  );
}

/** What is being done with an item as cautions look at it. */
export type Doing = { act: Act; processes: readonly Process[] };

/** Each caution is given once per item, when item and work first call for it. */
export function warn(draft: Draft, number: number, { act, processes }: Doing, bench: Bench): Draft {
  const item = draft.state.items[number];
  if (!item) return draft;
  const cautions = cautionsFor({
    part: item.part,
    group: item.group,
    processes: [...new Set([...item.processes, ...processes])],
    remedy: item.remedy,
    conditions: item.findings.at(-1)?.conditions ?? [],
    act,
  });
  const fresh = cautions.filter((caution) => !item.cautions.includes(caution.id));
  return add(
    draft,
    bench,
    ...fresh.map((caution) => event('caution-given', { item: number, caution: caution.id })),
  );
}

export function price(state: JobState, command: CommandOf<'price'>, bench: Bench): Decision {
  const targeted = targetItem(startDraft(state), command.target, bench);
  if ('refusal' in targeted) return targeted;
  const noted = event('cost-noted', { item: targeted.item.number, cost: command.cost });
  return done(add(targeted.draft, bench, noted));
}

export function correctItem(state: JobState, command: CommandOf<'correct-item'>): Decision {
  if (!state.items[command.item]) return { refusal: { why: 'no-such-item', item: command.item } };
  const { item, part, place, count } = command;
  return { events: [event('item-corrected', { item, part, group: groupOf(part), place, count })] };
}

export function doWork(state: JobState, command: CommandOf<'work-done'>, bench: Bench): Decision {
  const targeted = targetItem(startDraft(state), command.target, bench);
  if ('refusal' in targeted) return targeted;
  const { item } = targeted;
  if (isDone(item)) return done(targeted.draft);
  const inShop = item.remedy === 'clean' || item.remedy === 'repair' || item.remedy === 'make';
  const decided = inShop
    ? targeted.draft
    : add(
        targeted.draft,
        bench,
        event('remedy-decided', { item: item.number, remedy: 'repair', processes: [], supplier: null }),
      );
  return done(add(decided, bench, event('work-done', { item: item.number })));
}

/** A note alone puts nothing on the list: it is kept with the item it names, where that is there. */
export function keepNote(state: JobState, command: CommandOf<'keep-note'>): Decision {
  const { target, text, attachments } = command;
  return { events: [event('note-kept', { item: itemNamed(state, target), text, attachments })] };
}
