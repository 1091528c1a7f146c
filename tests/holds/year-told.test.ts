import { describe, expect, it } from 'vitest';
import { expectedOn, notNudged } from '../../config/year/invariants/expected-mechanics.js';
import { gateUntold, notToldAsReleased } from '../../config/year/invariants/expected-owners.js';
import type { Note } from '../../config/year/notes.js';
import { message } from './seen.js';

const at = (iso: string): number => Date.parse(iso);
const bar = { job: 'Wexcombe', part: 'handlebar', supplier: 'Brask Plating' };
const sent: Note = {
  ...{ ...bar, what: 'out', kind: 'sent', promised: '2026-03-20' },
  at: at('2026-03-04T09:40:00Z'),
};
const back: Note = { ...bar, what: 'back', refused: false, at: at('2026-03-23T09:40:00Z') };

describe('a mechanic’s morning', () => {
  const round = (day: string, heading: string) =>
    message(
      `${day}T07:45:00Z`,
      `${heading}\nBrask Plating: promised\n• handlebar (1), Wexcombe: there since 4 March`,
    );

  it('has what is due that day, then what is past it, until it is back; weekends have none', () => {
    expect(expectedOn('2026-03-19', [sent])).toEqual([]);
    expect(expectedOn('2026-03-20', [sent]).map(({ as }) => as)).toEqual(['Due today']);
    expect(expectedOn('2026-03-21', [sent])).toEqual([]);
    expect(expectedOn('2026-03-23', [sent, back]).map(({ as }) => as)).toEqual(['Overdue']);
    expect(expectedOn('2026-03-24', [sent, back])).toEqual([]);
  });

  it.each([
    ['holds where it is told', round('2026-03-20', 'Due today:'), '2026-03-20', 0],
    [
      'does not where it is told in the wrong list',
      round('2026-03-20', 'Overdue – ring them:'),
      '2026-03-20',
      2,
    ],
    ['does not where it is told a day late', round('2026-03-23', 'Overdue – ring them:'), '2026-03-20', 1],
    ['does not where it is told early', round('2026-03-19', 'Due today:'), '2026-03-19', 1],
  ])('%s', (_what, morning, day, faults) => {
    expect(notNudged('Hettie', [morning], [sent], day)).toHaveLength(faults);
  });
});

describe('an owner’s notices', () => {
  const news = message(
    '2026-03-04T09:40:00Z',
    'Wexcombe\nEvery part has been looked over.\nIf you have a question, just write here.',
  );
  const letGo = { job: '1', notice: 'notice-1', at: at('2026-03-04T09:40:00Z') };

  it('go as each is let go, by whoever pressed first', () => {
    const again = { ...letGo, at: at('2026-03-05T09:40:00Z') };
    expect(notToldAsReleased('Mrs Dale', [news], [letGo, again])).toEqual([]);
    expect(notToldAsReleased('Mrs Dale', [], [letGo])).toHaveLength(1);
    expect(notToldAsReleased('Mrs Dale', [news], [])).toHaveLength(1);
    expect(notToldAsReleased('Mrs Dale', [news], [{ ...letGo, at: letGo.at + 1000 }])).toHaveLength(2);
  });

  it('tell of each gate passed', () => {
    expect(gateUntold('Mrs Dale', [news], [{ gate: 'inspected', at: letGo.at }])).toEqual([]);
    expect(gateUntold('Mrs Dale', [news], [{ gate: 'reassembled', at: letGo.at }])).toHaveLength(1);
    const opened = { ...news, text: news.text.replace(/Every.*/, 'Something more has come to light.') };
    expect(gateUntold('Mrs Dale', [news, opened], [{ gate: 'inspected', at: letGo.at }])).toHaveLength(1);
  });
});
