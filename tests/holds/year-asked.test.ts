import { describe, expect, it } from 'vitest';
import { notAsPolicySays } from '../../config/year/invariants/asked.js';
import { expectedOf } from '../../config/year/invariants/expected-suppliers.js';
import type { ChatOf } from '../../config/year/invariants/messages.js';
import { otherThanFolded } from '../../config/year/invariants/record.js';
import { workedFrom } from '../../config/year/invariants/working-days.js';
import type { Note } from '../../config/year/notes.js';
import type { Seen } from '../../bot/rehearsal/seen.js';
import { message } from './seen.js';

const PLATER = 'Brask Plating';
const thing = { job: 'Wexcombe', part: 'handlebar', supplier: PLATER };
const at = (iso: string): number => Date.parse(iso);
// Days checked by a calendar of 2026: 4 March is a Wednesday; 3 and 6 April are Good Friday and Easter Monday (GOV.UK, bank holidays).
const sent: Note = {
  ...{ what: 'out', ...thing, kind: 'sent', promised: '2026-03-20' },
  at: at('2026-03-04T09:40:00Z'),
};
const later = at('2026-04-30T22:00:00Z');

const chat = (...messages: Seen[]): ChatOf => ({
  ...{ who: PLATER, part: 'supplier', chatId: 1, messages, foreign: [] },
});
const row = '• Handlebar, Wexcombe: chroming, promised';
const coming = (day: string): Seen =>
  message(`${day}T09:00:00Z`, `Hello from us.\nA friendly word about what is due with us soon:\n${row}`);
const late = (day: string): Seen =>
  message(`${day}T09:00:00Z`, `Hello from us.\nThese were promised and haven’t reached us yet:\n${row}`);
const inOrder = [coming('2026-03-18'), late('2026-03-23'), late('2026-03-26')];

describe('what a supplier should be asked, by the policy alone', () => {
  it('is a word two working days before, the first after, and three on, over holidays', () => {
    expect(expectedOf(PLATER, [sent], later).map(({ day }) => day)).toEqual([
      '2026-03-18',
      '2026-03-23',
      '2026-03-26',
    ]);
    expect(workedFrom('2026-04-02', 1)).toBe('2026-04-07');
    expect(workedFrom('2026-04-07', -1)).toBe('2026-04-02');
  });

  it('is no word before, where they have it for a week', () => {
    const short: Note = { ...sent, promised: '2026-03-11' };
    expect(expectedOf(PLATER, [short], later).map(({ as }) => as)).toEqual(['late', 'late']);
  });

  it('is nothing once it is back, and begins anew with a new day', () => {
    const back: Note = { ...thing, what: 'back', refused: false, at: at('2026-03-18T09:40:00Z') };
    expect(expectedOf(PLATER, [sent, back], later).map(({ day }) => day)).toEqual(['2026-03-18']);
    const moved: Note = {
      ...{ ...thing, what: 'new-date', promised: '2026-03-27' },
      at: at('2026-03-23T09:40:00Z'),
    };
    expect(expectedOf(PLATER, [sent, moved], later).map(({ day }) => day)).toEqual([
      '2026-03-18',
      '2026-03-23',
      '2026-03-30',
      '2026-04-02',
    ]);
  });
});

describe('a supplier’s chat against it', () => {
  it('holds where all went on its day', () => {
    expect(notAsPolicySays(chat(...inOrder), [sent], later)).toEqual([]);
  });

  it('does not where one is missing', () => {
    expect(notAsPolicySays(chat(...inOrder.slice(0, 2)), [sent], later)).toEqual([
      `${PLATER} was not asked about the handlebar of the Wexcombe on 2026-03-26 (late)`,
    ]);
  });

  it.each([
    ['a day late', [coming('2026-03-18'), late('2026-03-24'), late('2026-03-26')], 2],
    ['early', [coming('2026-03-17'), late('2026-03-23'), late('2026-03-26')], 2],
    ['one time too many', [...inOrder, late('2026-03-31')], 1],
    ['as late before its day', [late('2026-03-18'), ...inOrder.slice(1)], 2],
  ])('does not where it was %s', (_how, messages, faults) => {
    expect(notAsPolicySays(chat(...messages), [sent], later)).toHaveLength(faults);
  });

  it('does not where it was asked of what is back', () => {
    const back: Note = { ...thing, what: 'back', refused: false, at: at('2026-03-25T09:40:00Z') };
    expect(notAsPolicySays(chat(...inOrder), [sent, back], later)).toHaveLength(1);
  });
});

it('sees a stream of the shop or of a person that is not what its events fold to', () => {
  expect(otherThanFolded('shop', { people: {} }, { people: {} })).toEqual([]);
  expect(otherThanFolded('shop', { people: {} }, { people: { a: 1 } })).toHaveLength(1);
});
