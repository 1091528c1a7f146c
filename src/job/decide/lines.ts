import type { Cost } from '../../hearing/reading.js';
import type { Process } from '../../trade/terms.js';
import type { JobCommand, Target } from '../commands.js';
import { event } from '../events.js';
import { resolve } from '../resolve.js';
import type { IsoDate, Item, JobState, Line } from '../state.js';
import { isOut, openLineOf } from '../state.js';
import type { Bench, Decision, Draft } from './draft.js';
import { add, done, refuse, startDraft } from './draft.js';
import { decideOn, warn } from './findings.js';
import { targetItem } from './target.js';

type CommandOf<T extends JobCommand['type']> = Extract<JobCommand, { type: T }>;

type Opening = {
  kind: Line['kind'];
  supplier: string | null;
  processes: Process[];
  cost: Cost | null;
  due: IsoDate | null;
};

export function order(state: JobState, command: CommandOf<'order'>, bench: Bench): Decision {
  return open(state, command.target, { ...command, kind: 'order', processes: [] }, bench);
}

export function send(state: JobState, command: CommandOf<'send'>, bench: Bench): Decision {
  return open(state, command.target, { ...command, kind: 'sublet' }, bench);
}

/** What was sent or ordered is a fact: it settles the remedy where none, or another, was decided. */
function open(state: JobState, target: Target, opening: Opening, bench: Bench): Decision {
  const targeted = targetItem(startDraft(state), target, bench);
  if ('refusal' in targeted) return targeted;
  const { item } = targeted;
  const already = openLineOf(state, item.number);
  if (already && already.kind === opening.kind) return again(targeted.draft, already, item, opening, bench);
  const remedied = settleRemedy(targeted.draft, item, opening, bench);
  const settled = remedied.state.items[item.number] ?? item;
  const processes = opening.processes.length > 0 ? opening.processes : outstanding(settled);
  const line = event('line-opened', {
    line: nextLine(state, remedied),
    kind: opening.kind,
    item: item.number,
    supplier: opening.supplier ?? item.supplier,
    processes,
    count: target.count ?? item.count,
    on: bench.today,
    due: opening.due,
  });
  return done(warn(add(remedied, bench, line), item.number, processes, bench));
}

/** Said again of a thing already out: the new date or price is taken, no second line is opened. */
function again(draft: Draft, line: Line, item: Item, opening: Opening, bench: Bench): Decision {
  const priced = opening.cost
    ? add(draft, bench, event('cost-noted', { item: item.number, cost: opening.cost }))
    : draft;
  if (opening.due === null) return done(priced);
  return done(
    add(
      priced,
      bench,
      event('promise-made', { line: line.id, due: opening.due, by: line.supplier, on: bench.today }),
    ),
  );
}

function settleRemedy(draft: Draft, item: Item, opening: Opening, bench: Bench): Draft {
  const remedy = opening.kind === 'order' ? 'replace' : 'send-out';
  const news = opening.processes.some((process) => !item.processes.includes(process));
  const changes = item.remedy !== remedy || news || item.fitted || item.returned;
  const processes =
    remedy === 'replace'
      ? []
      : [...new Set([...(item.remedy === remedy ? item.processes : []), ...opening.processes])];
  return decideOn(
    draft,
    item,
    { remedy: changes ? remedy : null, processes, supplier: opening.supplier, cost: opening.cost },
    bench,
  );
}

const outstanding = (item: Item): Process[] =>
  item.processes.filter((process) => !item.processesDone.includes(process));

function nextLine(state: JobState, draft: Draft): string {
  return `line-${Object.keys({ ...state.lines, ...draft.state.lines }).length + 1}`;
}

/** A date for a thing never said to have gone says that it has: the line is opened with it. */
export function promise(state: JobState, command: CommandOf<'promise'>, bench: Bench): Decision {
  const { target, supplier, due, by } = command;
  const lines = linesMeant(state, target, supplier);
  if ('refusal' in lines) return lines;
  if (lines.length > 0) {
    return {
      events: lines.map((line) => event('promise-made', { line: line.id, due, by, on: bench.today })),
    };
  }
  const found = resolve(state, target);
  if (found.kind === 'nothing-named') return refuse({ why: 'nothing-out', supplier });
  const kind = found.kind === 'found' && found.item.remedy === 'replace' ? 'order' : 'sublet';
  return open(state, target, { kind, supplier, processes: [], cost: null, due }, bench);
}

export function promiseLine(
  state: JobState,
  { line, due, by }: CommandOf<'promise-line'>,
  bench: Bench,
): Decision {
  if (!state.lines[line]) return { events: [] };
  return { events: [event('promise-made', { line, due, by, on: bench.today })] };
}

export function answerLines(state: JobState, { lines, text }: CommandOf<'answer-lines'>): Decision {
  const known = lines.filter((line) => state.lines[line]);
  return { events: known.map((line) => event('line-answered', { line, text })) };
}

/** A return of something never said to have gone is taken as sent and back the same day: facts are never refused. */
export function takeBack(state: JobState, command: CommandOf<'take-back'>, bench: Bench): Decision {
  const lines = linesMeant(state, command.target, command.supplier);
  if ('refusal' in lines) return lines;
  const { outcome, count, text } = command;
  if (lines.length > 0) {
    const settle = lines.map((line) => settleReturn(line, outcome, count));
    return {
      events: lines.map((line, index) =>
        event('line-returned', {
          line: line.id,
          outcome: settle[index] ?? outcome,
          count,
          on: bench.today,
          text,
        }),
      ),
    };
  }
  if (command.target.item === null && command.target.part === null && command.target.called === null) {
    return refuse({ why: 'nothing-out', supplier: command.supplier });
  }
  return unannounced(state, command, bench);
}

/** Parts that came in pieces are all back once the last piece is. */
function settleReturn(
  line: Line,
  outcome: 'all' | 'part' | 'refused',
  count: number | null,
): 'all' | 'part' | 'refused' {
  if (outcome !== 'part' || count === null || line.count === null) return outcome;
  return line.countBack + count >= line.count ? 'all' : 'part';
}

function unannounced(state: JobState, command: CommandOf<'take-back'>, bench: Bench): Decision {
  const targeted = targetItem(startDraft(state), command.target, bench);
  if ('refusal' in targeted) return targeted;
  const kind = targeted.item.remedy === 'send-out' ? 'sublet' : 'order';
  const { supplier, target } = command;
  const opened = open(
    targeted.draft.state,
    { ...target, item: targeted.item.number },
    { kind, supplier, processes: [], cost: null, due: null },
    bench,
  );
  if ('refusal' in opened) return opened;
  const draft = add(targeted.draft, bench, ...opened.events);
  const line = openLineOf(draft.state, targeted.item.number);
  if (!line) return done(draft);
  const { outcome, count, text } = command;
  return done(
    add(draft, bench, event('line-returned', { line: line.id, outcome, count, on: bench.today, text })),
  );
}

/** The open lines a message means: those of the item named, else all of the supplier's. */
function linesMeant(
  state: JobState,
  target: Target,
  supplier: string | null,
): Line[] | { refusal: { why: 'which-item'; candidates: number[] } | { why: 'no-such-item'; item: number } } {
  const out = Object.values(state.lines).filter(isOut);
  const found = resolve(state, target);
  switch (found.kind) {
    case 'found':
      return out.filter((line) => line.item === found.item.number);
    case 'several':
      return narrow(out, found.items, supplier);
    case 'no-such-item':
      return { refusal: { why: 'no-such-item', item: found.item } };
    case 'new':
      return [];
    case 'nothing-named':
      return supplier === null ? [] : out.filter((line) => line.supplier === supplier);
  }
}

/** Of several items with the name, those that are out are meant; with a supplier, those out with them. */
function narrow(out: Line[], items: Item[], supplier: string | null): ReturnType<typeof linesMeant> {
  const named = out.filter((line) => items.some((item) => item.number === line.item));
  const theirs = named.filter((line) => supplier === null || line.supplier === supplier);
  const [only, ...more] = theirs.length > 0 ? theirs : named;
  if (only && more.length === 0) return [only];
  const candidates = theirs.length > 0 ? theirs.map((line) => line.item) : items.map((item) => item.number);
  return { refusal: { why: 'which-item', candidates } };
}
