import type { JobCommand, Target } from '../commands.js';
import { event } from '../events.js';
import { resolve } from '../resolve.js';
import type { Item, JobState, Line } from '../state.js';
import { linesOf, openLineOf } from '../state.js';
import type { Bench, Decision } from './draft.js';
import { add, done, refuse, startDraft } from './draft.js';
import { openLine } from './lines.js';
import { linesMeant } from './lines-meant.js';
import { countOf, targetItem } from './target.js';

type TakeBack = Extract<JobCommand, { type: 'take-back' }>;

/** A return of something never said to have gone is taken as sent and back the same day: facts are never refused. */
export function takeBack(state: JobState, command: TakeBack, bench: Bench): Decision {
  if (command.count === 0) return noted(command, null);
  const meant = linesMeant(state, command.target, command.supplier, 'ask');
  if ('refusal' in meant) return meant;
  const { lines } = meant;
  if (lines.length > 0) return back(lines, command, bench);
  if (isNameless(command.target)) return refuse({ why: 'nothing-out', supplier: command.supplier });
  const found = resolve(state, command.target);
  const before = found.kind === 'found' ? saidBefore(state, found.item, command, bench) : null;
  return before ?? unannounced(state, command, bench);
}

const isNameless = ({ item, part, called }: Target): boolean =>
  item === null && part === null && called === null;

/** A count that falls short of a supplier's several lines doesn't say which came. */
function back(lines: readonly Line[], command: TakeBack, bench: Bench): Decision {
  const { outcome, text } = command;
  const count = countOf(command);
  const items = [...new Set(lines.map((line) => line.item))];
  if (count !== null && count < items.length) return refuse({ why: 'which-item', candidates: items });
  const counted = lines.length === 1 ? count : null;
  return {
    events: lines.map((line) =>
      event('line-returned', {
        line: line.id,
        outcome: settleReturn(line, outcome, counted),
        count: counted,
        on: bench.today,
        text,
      }),
    ),
  };
}

/** Pieces are counted where numbers were said: all are back once the last is, and fewer than that are a part. */
function settleReturn(line: Line, outcome: TakeBack['outcome'], count: number | null): TakeBack['outcome'] {
  if (outcome === 'refused' || count === null || line.count === null) return outcome;
  return line.countBack + count >= line.count ? 'all' : 'part';
}

/** Of what is back already: found bad after all, it is refused; back once more, or bad once more, is no news. */
function saidBefore(state: JobState, item: Item, command: TakeBack, bench: Bench): Decision | null {
  const { outcome, text, supplier } = command;
  const lines = linesOf(state, item.number);
  const last = lines.findLast((line) => line.supplier === supplier) ?? lines.at(-1);
  if (last?.status === 'back' && outcome === 'refused') {
    return {
      events: [event('line-returned', { line: last.id, outcome, count: null, on: bench.today, text })],
    };
  }
  const isNoNews = outcome === 'refused' ? last?.status === 'refused' : item.returned;
  return isNoNews ? noted(command, item.number) : null;
}

function noted({ text }: TakeBack, item: number | null): Decision {
  return { events: text === null ? [] : [event('note-kept', { item, text, attachments: [] })] };
}

function unannounced(state: JobState, command: TakeBack, bench: Bench): Decision {
  const { supplier, target, outcome, text } = command;
  const isNew = resolve(state, target).kind === 'new';
  const targeted = targetItem(startDraft(state), target, bench);
  if ('refusal' in targeted) return targeted;
  const { item } = targeted;
  const opened = openLine(
    targeted.draft,
    { ...target, item: item.number },
    { kind: kindOf(item, isNew), supplier, processes: [], cost: null, due: null },
    bench,
  );
  if ('refusal' in opened) return opened;
  const draft = add(startDraft(state), bench, ...opened.events);
  const line = openLineOf(draft.state, item.number);
  if (!line) throw new Error(`a line was opened for item ${item.number} and is not there`);
  const count = countOf(command);
  return done(
    add(draft, bench, event('line-returned', { line: line.id, outcome, count, on: bench.today, text })),
  );
}

/** What was never on the list was bought; what was taken off the machine went out, unless it was to be bought anew. */
function kindOf({ remedy }: Item, isNew: boolean): Line['kind'] {
  return isNew || remedy === 'replace' ? 'order' : 'sublet';
}
