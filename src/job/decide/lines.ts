import type { Cost } from '../../hearing/reading.js';
import type { Process } from '../../trade/terms.js';
import type { JobCommand, Target } from '../commands.js';
import type { JobEvent } from '../events.js';
import { event } from '../events.js';
import type { IsoDate, Item, JobState, Line } from '../state.js';
import { isOut, linesOf } from '../state.js';
import { isDone, outstanding } from '../work.js';
import type { Bench, Decision, Draft } from './draft.js';
import { add, done, startDraft } from './draft.js';
import { decideOn, warn } from './findings.js';
import { countOf, targetItem } from './target.js';

type CommandOf<T extends JobCommand['type']> = Extract<JobCommand, { type: T }>;

export type Opening = {
  kind: Line['kind'];
  supplier: string | null;
  processes: Process[];
  cost: Cost | null;
  due: IsoDate | null;
};

export function order(state: JobState, command: CommandOf<'order'>, bench: Bench): Decision {
  return openLine(startDraft(state), command.target, { ...command, kind: 'order', processes: [] }, bench);
}

export function send(state: JobState, command: CommandOf<'send'>, bench: Bench): Decision {
  return openLine(startDraft(state), command.target, { ...command, kind: 'sublet' }, bench);
}

/** What was sent or ordered is a fact: it settles the remedy where none, or another, was decided. */
export function openLine(draft: Draft, target: Target, opening: Opening, bench: Bench): Decision {
  const targeted = targetItem(draft, target, bench);
  if ('refusal' in targeted) return targeted;
  const { item } = targeted;
  const out = linesOf(draft.state, item.number).filter((line) => isOut(line) && line.kind === opening.kind);
  const theirs = out.find((line) => isWith(line, opening.supplier));
  if (theirs) return again(targeted.draft, theirs, opening, bench);
  const moved = opening.kind === 'sublet' && !isPartOf(item, target, out) ? out : [];
  const here = add(targeted.draft, bench, ...moved.map((line) => moveOn(line, bench)));
  return done(openNew(here, item.number, target, opening, bench));
}

const isWith = (line: Line, supplier: string | null): boolean =>
  supplier === null || line.supplier === null || line.supplier === supplier;

/** Two of four at one place and two at another: they are out side by side. */
function isPartOf(item: Item, target: Target, out: readonly Line[]): boolean {
  const count = countOf(target);
  if (item.count === null || count === null || out.some((line) => line.count === null)) return false;
  return out.reduce((sum, line) => sum + (line.count ?? 0), count) <= item.count;
}

/** A thing can't be at two places: sent on to the next, it is done at the first. */
const moveOn = (line: Line, bench: Bench): JobEvent =>
  event('line-returned', { line: line.id, outcome: 'all', count: null, on: bench.today, text: null });

function openNew(draft: Draft, number: number, target: Target, opening: Opening, bench: Bench): Draft {
  const item = draft.state.items[number];
  if (!item) throw new Error(`item ${number} was found and is not there`);
  const remedied = settleRemedy(draft, item, opening, bench);
  const settled = remedied.state.items[number] ?? item;
  const processes = opening.processes.length > 0 ? opening.processes : outstanding(settled);
  const line = event('line-opened', {
    line: `line-${remedied.state.version + 1}`,
    kind: opening.kind,
    item: number,
    supplier: opening.supplier ?? item.supplier,
    processes,
    count: countOf(target) ?? stillWanted(draft.state, item),
    on: bench.today,
    due: opening.due,
  });
  const act = opening.kind === 'order' ? 'ordered' : 'sent';
  return warn(add(remedied, bench, line), number, { act, processes }, bench);
}

/** How many go again: all, or those that a refused return left undone. */
function stillWanted(state: JobState, item: Item): number | null {
  const last = linesOf(state, item.number).at(-1);
  if (last?.status !== 'refused' || last.count === null) return item.count;
  return last.count > last.countBack ? last.count - last.countBack : item.count;
}

/** Said again of a thing already out: the new date or price, or who has it, is taken; no second line is opened. */
function again(draft: Draft, line: Line, opening: Opening, bench: Bench): Decision {
  const { supplier, cost, due } = opening;
  const news: JobEvent[] = [];
  if (supplier !== null && line.supplier === null) {
    news.push(event('line-placed', { line: line.id, supplier }));
  }
  if (cost !== null) news.push(event('cost-noted', { item: line.item, cost }));
  if (due !== null) {
    const by = supplier ?? line.supplier;
    news.push(event('promise-made', { line: line.id, due, by, on: bench.today }));
  }
  return done(add(draft, bench, ...news));
}

function settleRemedy(draft: Draft, item: Item, opening: Opening, bench: Bench): Draft {
  const remedy = opening.kind === 'order' ? 'replace' : 'send-out';
  const { processes, supplier, cost } = opening;
  const isNew = processes.some((process) => !item.processes.includes(process));
  const changes = item.remedy !== remedy || isNew || isDone(item);
  return decideOn(draft, item, { remedy: changes ? remedy : null, processes, supplier, cost }, bench);
}
