import type { Seen } from '../../../bot/rehearsal/seen.js';
import { DateTime } from 'luxon';
import type { Note } from '../notes.js';
import { instant, ZONE } from '../../demo/shop-time.js';
import { isWorked } from './working-days.js';

const AT = '07:45';
const OVERDUE = 'Overdue';
const TODAY = 'Due today';

/** A thing that a mechanic should find in a morning's round-up. */
export type Nudged = { job: string; part: string; as: typeof OVERDUE | typeof TODAY };

/** What should stand in the round-up of a day: all that is out past its day, or promised for it. */
export function expectedOn(day: string, notes: readonly Note[]): Nudged[] {
  if (!isWorked(DateTime.fromISO(day, { zone: ZONE }))) return [];
  const due = new Map<string, { job: string; part: string; promised: string }>();
  for (const each of notes) {
    if (each.at >= instant(day, AT) || !('supplier' in each)) continue;
    const { job, part } = each;
    const key = `${job} ${part}`;
    if (each.what === 'back') due.delete(key);
    else due.set(key, { job, part, promised: each.promised });
  }
  return [...due.values()].flatMap(({ job, part, promised }) =>
    promised > day ? [] : [{ job, part, as: promised < day ? OVERDUE : TODAY }],
  );
}

/** Where a mechanic's mornings up to and with a day tell anything else than they should. */
export function notNudged(
  who: string,
  messages: readonly Seen[],
  notes: readonly Note[],
  day: string,
): string[] {
  const found = messages.find(({ by, date }) => by === 'bot' && date * 1000 === instant(day, AT));
  const sections = sectionsOf(found?.text ?? '');
  const wanted = expectedOn(day, notes);
  const said = ({ job, part, as }: Nudged): string => `the ${part} of the ${job} (${as}) on ${day}`;
  const missing = wanted.filter(
    (each) => !sections[each.as].isCut && !sections[each.as].rows.some((row) => isOf(row, each)),
  );
  const extra = ([OVERDUE, TODAY] as const).flatMap((as) =>
    sections[as].rows.filter((row) => !wanted.some((each) => each.as === as && isOf(row, each))),
  );
  return [
    ...missing.map((each) => `${who} was not told of ${said(each)}`),
    ...extra.map((row) => `${who} was told on ${day} for nothing: ${row}`),
  ];
}

type Section = { rows: string[]; /** The list was too long to be told whole. */ isCut: boolean };

function sectionsOf(text: string): Record<Nudged['as'], Section> {
  const sections = { [OVERDUE]: { rows: [], isCut: false }, [TODAY]: { rows: [], isCut: false } } as Record<
    Nudged['as'],
    Section
  >;
  let within: Section | null = null;
  for (const line of text.split('\n')) {
    if (line.startsWith(OVERDUE)) within = sections[OVERDUE];
    else if (line.startsWith(TODAY)) within = sections[TODAY];
    else if (line.startsWith('Out without') || line.startsWith('Owners who')) within = null;
    else if (/^and \d+ more/.test(line) && within) within.isCut = true;
    else if (line.startsWith('•')) within?.rows.push(line);
  }
  return sections;
}

const plain = (words: string): string => words.toLowerCase().replace(/ /g, '');

/** The machine is named only where several are in. */
const isOf = (row: string, { job, part }: Nudged): boolean =>
  plain(row).includes(plain(part).replace(/s$/, '')) && (row.includes(job) || /\(\d+\): /.test(row));
