import type { Gate } from '../../../src/trade/terms.js';
import { dateOf, instant } from '../../demo/shop-time.js';
import { spokenDay } from '../days.js';
import type { Happened } from '../journal.js';
import type { ClosedDays } from '../ledger.js';
import type { Note, Pass } from '../notes.js';
import { inTheWay } from './gate-rules.js';
import { workedAfter, workedFrom } from './working-days.js';

/** The design's default: so many working days before the day wanted, and once when it was missed, as the shop opens. */
const BEFORE = [10, 3] as const;
export const OPENS = '08:00';

/** A word to every mechanic that a day nears, or was missed. */
export type Nudge = {
  on: string;
  job: string;
  gate: Gate | null;
  by: string;
  left: number | null;
  /** Whether something is in the gate's way; null of the whole, which waits for several. */
  isHeld: boolean | null;
};

type Known = {
  notes: readonly Note[];
  passes: readonly Pick<Pass, 'gate' | 'at'>[];
  closed: readonly ClosedDays[];
};

/** What mechanics should be told of the days that one machine is wanted by; `passes`: of its gates. */
export function nudgesOf(job: string, { notes, passes, closed }: Known): Nudge[] {
  const its = notes.filter((each) => each.job === job);
  return its.flatMap((wanted, index) => {
    if (wanted.what !== 'wanted') return [];
    const { gate, by, at } = wanted;
    // It ends as it is reached, with the hand-over, or as another day is set.
    const ends = [
      ...passes.filter((pass) => pass.gate === gate).map((pass) => pass.at),
      ...its
        .slice(index + 1)
        .filter((each) => each.what === 'handed-over' || (each.what === 'wanted' && each.gate === gate))
        .map((each) => each.at),
    ];
    const end = Math.min(Infinity, ...ends);
    const steps = [
      ...BEFORE.map((left) => ({ on: workedFrom(by, -left, closed), left })),
      { on: workedAfter(by, closed), left: null },
    ];
    return steps
      .filter(({ on }) => instant(on, OPENS) > at && instant(on, OPENS) < end)
      .map((step) => {
        const known = its.filter((each) => each.at < instant(step.on, OPENS));
        return { ...step, job, gate, by, isHeld: gate === null ? null : inTheWay(gate, known) !== null };
      });
  });
}

const NUDGE =
  /^(.+) – (Finished|Reassembled|Road-tested) by (\w{3} \d+ \w+)(?:: (\d+) working days left| was missed)\.\n(In the way:|Nothing is in the way\.)/;
const GATES: Readonly<Record<string, Gate | null>> = {
  Finished: null,
  Reassembled: 'reassembled',
  'Road-tested': 'road-tested',
};

const keyOf = (job: string, gate: Gate | null, by: string, left: string, isHeld: boolean | null): string =>
  `${job}, ${gate ?? 'the whole'}, ${by}, ${left}${isHeld === null ? '' : isHeld ? ', held' : ', free'}`;

/** Where a mechanic was told on a day of anything else that is wanted by a day than they should. */
export function nudgedAmiss(
  { who, chat }: { who: string; chat: number },
  happened: readonly Happened[],
  expected: readonly Nudge[],
  day: string,
): string[] {
  const wanted = new Set(
    expected
      .filter(({ on }) => on === day)
      .map(({ job, gate, by, left, isHeld }) =>
        keyOf(job, gate, spokenDay(by), `${left ?? 'missed'}`, isHeld),
      ),
  );
  const told = happened.flatMap((entry) => {
    if (entry.kind !== 'written' || entry.chat !== chat || dateOf(entry.at) !== day) return [];
    const [, job, what = '', by = '', left = 'missed', way] = NUDGE.exec(entry.text) ?? [];
    if (job === undefined) return [];
    const gate = GATES[what] ?? null;
    const key = keyOf(job, gate, by, left, gate === null ? null : way === 'In the way:');
    return [{ key, isInTime: entry.at === instant(day, OPENS) }];
  });
  const inTime = new Set(told.filter(({ isInTime }) => isInTime).map(({ key }) => key));
  return [
    ...[...wanted]
      .filter((key) => !inTime.has(key))
      .map((key) => `${who} was not told on ${day} of what is wanted: ${key}`),
    ...told
      .filter(({ key, isInTime }) => !isInTime || !wanted.has(key))
      .map(({ key }) => `${who} was told untimely on ${day} of what is wanted: ${key}`),
  ];
}
