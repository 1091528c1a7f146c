import type { Timeline, TimelineRow } from '../../../src/plan/picture/timeline.js';

/** A row with the fields that a test cares about. */
export function row(label: string, changes: Partial<TimelineRow> = {}): TimelineRow {
  return {
    label,
    note: '',
    state: 'away',
    begins: '2026-02-09',
    even: '2026-04-02',
    safe: '2026-04-16',
    promised: null,
    late: false,
    holds: false,
    ...changes,
  };
}

export const timeline: Timeline = {
  title: 'Ketterby 350 twin',
  lead: ['Ready by 20 June, four chances in five.', 'The chrome holds it up most.'],
  today: '2026-03-11',
  goal: {
    label: 'Ready to hand over',
    note: '20 Jun',
    early: '2026-05-21',
    even: '2026-06-03',
    safe: '2026-06-20',
  },
  rows: [
    row('7 Frame and cycle parts, powder coat', {
      state: 'done',
      begins: '2026-02-02',
      even: '2026-02-27',
      safe: '2026-02-27',
      note: 'back 27 Feb',
    }),
    row('12 Mudguards and rims, Tarn Plating', { holds: true, promised: '2026-03-27', note: 'by 16 Apr' }),
    row('21 Magneto, Fell Rewinds', {
      late: true,
      promised: '2026-03-04',
      begins: '2026-01-26',
      even: '2026-03-20',
      safe: '2026-04-01',
      note: 'a week late',
    }),
    row('30 Piston rings, on order', {
      begins: '2026-03-09',
      even: '2026-03-18',
      safe: '2026-03-24',
      note: 'by 24 Mar',
    }),
    row('Owner’s yes to the rebore', {
      state: 'answer',
      begins: '2026-03-10',
      even: '2026-03-14',
      safe: '2026-03-19',
      note: 'by 19 Mar',
    }),
    row('Rebore & new piston at Moss & Beck', {
      begins: '2026-03-20',
      even: '2026-04-09',
      safe: '2026-04-23',
      note: 'by 23 Apr',
      promised: '2026-04-07',
    }),
    row('Bottom end build-up', {
      state: 'bench',
      begins: '2026-04-10',
      even: '2026-04-28',
      safe: '2026-05-09',
      note: 'by 9 May',
    }),
    row('Cycle parts, wheels and forks', {
      state: 'bench',
      holds: true,
      begins: '2026-04-16',
      even: '2026-05-12',
      safe: '2026-05-26',
      note: 'by 26 May',
    }),
    row('Engine in, wiring, tank on', {
      state: 'bench',
      begins: '2026-05-13',
      even: '2026-05-27',
      safe: '2026-06-12',
      note: 'by 12 Jun',
    }),
  ],
  more: 'and 23 lines more, none of which holds the job up',
  words: {
    today: 'today',
    done: 'done',
    away: 'out or on order',
    bench: 'at our bench',
    answer: 'an answer awaited',
    unsure: 'even chances to 4 in 5',
    promised: 'date promised',
    late: 'late',
    holds: 'holds the job up',
  },
  locale: 'en-GB',
};
