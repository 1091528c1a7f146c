import type { RecordedJobEvent } from '../../job/evolve.js';
import type { Item } from '../../job/state.js';
import { promiseOf } from '../../job/state.js';
import { processFacts } from '../../trade/processes.js';
import type { Speaker } from '../answer.js';
import { day, money } from '../figures.js';
import { findingWords } from '../item-words.js';
import type { Line } from '../lines.js';
import { bold, grouped, joined, sentence } from '../lines.js';
import { partBack, withWhom } from '../outside.js';
import { doing, forWork, remedyName, workDoneName } from '../terms.js';
import { storedIn, thingName } from '../things.js';
import { byItem, itemsWantingYes } from './by-item.js';
import { ownerName } from './job-lines.js';
import type { Told } from './told.js';

type EventOf<T extends RecordedJobEvent['type']> = Extract<RecordedJobEvent, { type: T }>;

type Row = { head: string; clauses: string };

/**
 * One line for each item that something was recorded of: '12 · front fork stanchions: pitted. Replace, about £80.'
 * Three or more of which the same is to be said share one.
 */
export function itemLines(told: Told, speaker: Speaker): Line[] {
  const wanting = itemsWantingYes(told);
  const rows = [...byItem(told)].flatMap(([number, events]): Row[] => {
    const item = told.state.items[number];
    if (!item) return [];
    const yes = wanting.includes(item) ? [yesMissing(told, events, speaker)] : [];
    const [first = 'on the list', ...rest] = [...clausesOf(told, item, events, speaker), ...yes];
    const clauses = [sentence(first).replace(/^./, first.charAt(0)), ...rest.map(sentence)].join(' ');
    return [{ head: `${number} · ${thingName(item, speaker)}`, clauses }];
  });
  return grouped(rows, ({ clauses }) => clauses).flatMap((same) =>
    same.length < 3 ? same.map(lineFor) : [lineTogether(same)],
  );
}

const lineFor = ({ head, clauses }: Row): Line => [bold(head), `: ${clauses}`];

function lineTogether(rows: readonly Row[]): Line {
  return [bold(rows.map(({ head }) => head).join(', ')), `: ${rows[0]?.clauses ?? ''}`];
}

function yesMissing({ state }: Told, events: readonly RecordedJobEvent[], speaker: Speaker): string {
  const owner = ownerName(state, speaker);
  const gone = events.some(({ type }) => type === 'line-opened');
  return gone ? `${owner} hasn’t said yes to it` : `Wants ${owner}’s yes first`;
}

function clausesOf(told: Told, item: Item, events: readonly RecordedJobEvent[], speaker: Speaker): string[] {
  const seen = events.flatMap((event) => seenIn(event));
  const deeds = events.flatMap((event) => deedIn(told, item, event, speaker));
  const decided = decisionIn(item, events, speaker);
  const clauses = [seen.join(', '), ...deeds, decided].filter((clause) => clause !== '');
  if (clauses.length > 0) return clauses;
  if (events.some(({ type }) => type === 'finding-logged' || type === 'note-kept'))
    return ['noted in your words'];
  return events.some(({ type }) => type === 'item-corrected') ? ['put right on the list'] : [];
}

function seenIn(event: RecordedJobEvent): string[] {
  if (event.type === 'item-taken-off') return ['off'];
  if (event.type === 'item-stored') return [storedIn(event.data.stored)];
  if (event.type === 'finding-logged') return [findingWords(event.data)].filter((words) => words !== '');
  if (event.type !== 'note-kept') return [];
  const kept = findingWords({ conditions: [], readings: [], attachments: event.data.attachments });
  return kept === '' ? [] : [`${kept} kept`];
}

function deedIn(told: Told, item: Item, event: RecordedJobEvent, speaker: Speaker): string[] {
  if (event.type === 'work-done') return [workDoneName(item.remedy, item.processes)];
  if (event.type === 'line-opened') return [opened(event, speaker)];
  if (event.type === 'line-placed') return [`with ${speaker.name(event.data.supplier)}`];
  if (event.type === 'promise-made') return [promised(told, event, speaker)];
  if (event.type === 'line-returned') return returned(told, event, speaker);
  return event.type === 'item-fitted' ? ['fitted'] : [];
}

function opened({ data }: EventOf<'line-opened'>, speaker: Speaker): string {
  const due = data.due === null ? 'no date given yet' : `due ${day(data.due, speaker)}`;
  if (data.kind === 'order')
    return `ordered${data.supplier === null ? '' : ` from ${speaker.name(data.supplier)}`}, ${due}`;
  return `gone to ${withWhom(data.supplier, speaker)}${forWork(data.processes)}, ${due}`;
}

function promised({ before, state }: Told, { data }: EventOf<'promise-made'>, speaker: Speaker): string {
  const was = before.lines[data.line];
  const earlier = was ? promiseOf(was) : null;
  const supplier = state.lines[data.line]?.supplier ?? null;
  const by = supplier === null ? '' : ` by ${speaker.name(supplier)}`;
  const moved = earlier && earlier.due !== data.due ? `, was ${day(earlier.due, speaker)}` : '';
  return `promised for ${day(data.due, speaker)}${by}${moved}`;
}

/** A thing that came back is measured again where its work changes a size. */
function returned({ state }: Told, { data }: EventOf<'line-returned'>, speaker: Speaker): string[] {
  const line = state.lines[data.line];
  const from = line?.supplier == null ? '' : ` from ${speaker.name(line.supplier)}`;
  if (data.outcome === 'refused') return [`back${from}, not right`, 'It waits here to go again'];
  if (data.outcome === 'part')
    return [`${line ? partBack(line) || 'part of it back' : 'part of it back'}${from}`];
  const sizes = [...new Set((line?.processes ?? []).flatMap((process) => processFacts[process].measure))];
  const measure = sizes.map((size) => size.replace('-', ' '));
  const came = `${line?.kind === 'order' ? 'in' : 'back'}${from}`;
  return sizes.length === 0
    ? [came]
    : [came, `Measure again after ${doing(line?.processes ?? [])}: ${joined(measure)}`];
}

/** What was decided, unless something done in the same breath says it already. */
function decisionIn(item: Item, events: readonly RecordedJobEvent[], speaker: Speaker): string {
  const implied = events.some(({ type }) => ['line-opened', 'item-fitted', 'work-done'].includes(type));
  const decided = events.findLast((event) => event.type === 'remedy-decided');
  const cost = events.findLast((event) => event.type === 'cost-noted');
  const remedy = decided && !implied ? remedyWith(decided.data, item, speaker) : '';
  return [remedy, cost ? money(cost.data.cost) : ''].filter((part) => part !== '').join(', ');
}

function remedyWith(
  { remedy, supplier }: EventOf<'remedy-decided'>['data'],
  { processes }: Item,
  speaker: Speaker,
): string {
  const name = remedyName(remedy, processes);
  if (supplier === null) return name;
  return remedy === 'replace'
    ? `${name}, from ${speaker.name(supplier)}`
    : `${name}, ${speaker.name(supplier)}`;
}
