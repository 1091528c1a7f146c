import { DateTime } from 'luxon';
import type { Note } from '../notes.js';
import { dateOf, instant } from '../../demo/shop-time.js';
import { workedAfter, workedFrom } from './working-days.js';

/** One thing that a supplier should be asked about on a day: before its day, or after it. */
export type Asked = { day: string; job: string; part: string; as: 'coming' | 'late' };

type Promised = { due: string; at: number; lead: number };

/** A thing out with a supplier: its promises in their order, and when it was back. */
type Out = { job: string; part: string; promises: Promised[]; until: number };

const OPENS = '09:00';
/** The design's default policy for suppliers in the chat, in their working days; the lead in calendar days. */
const POLICY = { checkBefore: 2, whereLeadOver: 7, chaseAgainAfter: 3 } as const;

/** All that a supplier in the chat should have been asked by an instant, by the policy's letter. */
export function expectedOf(supplier: string, notes: readonly Note[], by: number): Asked[] {
  return thingsOut(supplier, notes).flatMap(({ job, part, promises, until }) =>
    promises.flatMap((promise, index) => {
      // A new day starts a ladder of its own: what came of the old one ends with it.
      const end = Math.min(until, promises[index + 1]?.at ?? Infinity, by + 1);
      return ladderOf(promise)
        .filter(({ day }) => instant(day, OPENS) > promise.at && instant(day, OPENS) < end)
        .map((step) => ({ ...step, job, part }));
    }),
  );
}

/** A word two working days before, where they have it for over a week; the first working day after; three working days on. */
function ladderOf({ due, lead }: Promised): Pick<Asked, 'day' | 'as'>[] {
  const chased = workedAfter(due);
  return [
    ...(lead > POLICY.whereLeadOver
      ? [{ day: workedFrom(due, -POLICY.checkBefore), as: 'coming' as const }]
      : []),
    { day: chased, as: 'late' },
    { day: workedFrom(chased, POLICY.chaseAgainAfter), as: 'late' },
  ];
}

function thingsOut(supplier: string, notes: readonly Note[]): Out[] {
  const outs: Out[] = [];
  const open = ({ job }: Note, part: string): Out | undefined =>
    outs.findLast((out) => out.job === job && out.part === part && out.until === Infinity);
  for (const each of notes) {
    if (!('supplier' in each) || each.supplier !== supplier) continue;
    const promise = (due: string): Promised => ({ due, at: each.at, lead: daysTo(due, each.at) });
    switch (each.what) {
      case 'out':
        outs.push({ job: each.job, part: each.part, promises: [promise(each.promised)], until: Infinity });
        break;
      case 'new-date':
        open(each, each.part)?.promises.push(promise(each.promised));
        break;
      case 'back': {
        const out = open(each, each.part);
        if (out) out.until = each.at;
      }
    }
  }
  return outs;
}

const daysTo = (due: string, at: number): number =>
  Math.round(DateTime.fromISO(due).diff(DateTime.fromISO(dateOf(at)), 'days').days);
