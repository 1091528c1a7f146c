import { describe, expect, it } from 'vitest';
import { nudgedAmiss, nudgesOf } from '../../config/year/invariants/expected-nudges.js';
import { silenceAmiss, wordDueOn } from '../../config/year/invariants/expected-silence.js';
import type { Happened } from '../../config/year/journal.js';
import type { Note } from '../../config/year/notes.js';

const at = (iso: string): number => Date.parse(iso);
const HETTIE = { who: 'Hettie', chat: 1001 };
const OWNER = { owner: 'Mrs Dale', chat: 2001 };
const written = (chat: number, time: string, text: string): Happened => ({
  ...{ kind: 'written', at: at(time), chat, message: 1, text },
});
const WEEK = [{ from: '2026-03-09', to: '2026-03-13' }];

type Known = Parameters<typeof nudgesOf>[1];

// Days counted by a calendar of 2026; 3 and 6 April are Good Friday and Easter Monday (GOV.UK, bank holidays).
describe('a day that is wanted', () => {
  const wanted: Note = {
    ...{ what: 'wanted', job: 'Wexcombe', gate: 'reassembled', by: '2026-03-20' },
    at: at('2026-02-20T09:40:00Z'),
  };
  const known: Known = { notes: [wanted], passes: [], closed: [] };
  const days = (some: Partial<Known> = {}) => nudgesOf('Wexcombe', { ...known, ...some }).map(({ on }) => on);

  it('is told of ten and three working days before, and once missed', () => {
    expect(days()).toEqual(['2026-03-06', '2026-03-17', '2026-03-23']);
    expect(days({ notes: [{ ...wanted, by: '2026-04-10' }] })).toEqual([
      '2026-03-25',
      '2026-04-07',
      '2026-04-13',
    ]);
    expect(days({ closed: WEEK })).toEqual(['2026-02-27', '2026-03-17', '2026-03-23']);
  });

  it('is told of no more once it is reached or moved, and not of what lies behind as it is set', () => {
    const passed = { gate: 'reassembled' as const, at: at('2026-03-10T09:40:00Z') };
    expect(days({ passes: [passed] })).toEqual(['2026-03-06']);
    expect(days({ passes: [{ ...passed, gate: 'inspected' }] })).toHaveLength(3);
    const gone: Note = { what: 'handed-over', job: 'Wexcombe', at: at('2026-03-18T09:40:00Z') };
    expect(days({ notes: [wanted, gone] })).toEqual(['2026-03-06', '2026-03-17']);
    const later: Note = { ...wanted, by: '2026-04-10', at: at('2026-03-09T09:40:00Z') };
    expect(days({ notes: [wanted, later] })).toEqual([
      '2026-03-06',
      '2026-03-25',
      '2026-04-07',
      '2026-04-13',
    ]);
    expect(days({ notes: [{ ...wanted, at: at('2026-03-06T09:40:00Z') }] })).toEqual([
      '2026-03-17',
      '2026-03-23',
    ]);
  });

  const nudge = (time: string, head: string, way = 'In the way:'): Happened =>
    written(HETTIE.chat, time, `Wexcombe – ${head}\n${way}`);
  const amiss = (day: string, ...happened: Happened[]): string[] =>
    nudgedAmiss(HETTIE, happened, nudgesOf('Wexcombe', known), day);

  const built: Note = { what: 'built', job: 'Wexcombe', at: at('2026-02-19T09:40:00Z') };

  it('holds where each word comes on its day as the shop opens, to each mechanic', () => {
    expect(
      amiss(
        '2026-03-06',
        nudge('2026-03-06T08:00:00Z', 'Reassembled by Fri 20 March: 10 working days left.'),
      ),
    ).toEqual([]);
    expect(
      amiss('2026-03-23', nudge('2026-03-23T08:00:00Z', 'Reassembled by Fri 20 March was missed.')),
    ).toEqual([]);
    expect(amiss('2026-03-09')).toEqual([]);
    const all = nudgesOf('Wexcombe', { ...known, notes: [built, wanted] });
    const free = nudge(
      '2026-03-17T08:00:00Z',
      'Reassembled by Fri 20 March: 3 working days left.',
      'Nothing is in the way.',
    );
    expect(nudgedAmiss(HETTIE, [free], all, '2026-03-17')).toEqual([]);
  });

  it.each([
    ['is missing', '2026-03-17', []],
    [
      'went to another',
      '2026-03-17',
      [
        written(
          1002,
          '2026-03-17T08:00:00Z',
          'Wexcombe – Reassembled by Fri 20 March: 3 working days left.\nIn the way:',
        ),
      ],
    ],
    [
      'comes on a day of its own',
      '2026-03-18',
      [nudge('2026-03-18T08:00:00Z', 'Reassembled by Fri 20 March: 3 working days left.')],
    ],
    [
      'is of another machine',
      '2026-03-17',
      [
        written(
          HETTIE.chat,
          '2026-03-17T08:00:00Z',
          'Garwick – Reassembled by Fri 20 March: 3 working days left.\nIn the way:',
        ),
      ],
    ],
    [
      'says that nothing is in the way, where something is',
      '2026-03-17',
      [
        nudge(
          '2026-03-17T08:00:00Z',
          'Reassembled by Fri 20 March: 3 working days left.',
          'Nothing is in the way.',
        ),
      ],
    ],
    [
      'is of another gate',
      '2026-03-17',
      [nudge('2026-03-17T08:00:00Z', 'Finished by Fri 20 March: 3 working days left.')],
    ],
    [
      'counts wrongly',
      '2026-03-17',
      [nudge('2026-03-17T08:00:00Z', 'Reassembled by Fri 20 March: 10 working days left.')],
    ],
    [
      'comes later in the day',
      '2026-03-17',
      [nudge('2026-03-17T09:00:00Z', 'Reassembled by Fri 20 March: 3 working days left.')],
    ],
  ])('does not where one %s', (_what, day, happened) => {
    expect(amiss(day, ...happened)).not.toEqual([]);
  });
});

describe('an owner’s silence', () => {
  const news = written(OWNER.chat, '2026-03-04T09:40:00Z', 'Wexcombe\nEvery part has been looked over.');
  const dueOn = (...happened: Happened[]): string | null => wordDueOn(OWNER, happened, [], '2026-12-31');

  it('is ten working days since anything was written either way, or was shown for them', () => {
    expect(dueOn()).toBeNull();
    expect(dueOn(news)).toBe('2026-03-18');
    expect(wordDueOn(OWNER, [news], WEEK, '2026-12-31')).toBe('2026-03-25');
    const asked: Happened = {
      ...{
        kind: 'act',
        at: at('2026-03-08T11:15:00Z'),
        chat: OWNER.chat,
        update: 1,
        how: 'message',
        message: 1,
      },
      text: 'any news?',
    };
    // A Sunday counts as the Monday after it.
    expect(dueOn(news, asked)).toBe('2026-03-23');
    expect(
      dueOn(news, written(HETTIE.chat, '2026-03-05T09:40:00Z', 'For Mrs Dale, if you say so:\nNews')),
    ).toBe('2026-03-19');
    expect(
      dueOn(news, written(HETTIE.chat, '2026-03-05T09:40:00Z', 'For Mrs Tobin, if you say so:\nNews')),
    ).toBe('2026-03-18');
    const again: Happened = { kind: 'told-again', at: at('2026-03-05T09:40:00Z'), update: 1 };
    const same = { ...news, at: again.at };
    expect(dueOn(news, again, same)).toBe('2026-03-18');
    expect(dueOn(news, same)).toBe('2026-03-19');
    expect(dueOn(news, written(2002, '2026-03-05T09:40:00Z', 'News'))).toBe('2026-03-18');
  });

  const shown = (
    time: string,
    words = 'A short word, so that you know how things stand.',
    chat = HETTIE.chat,
  ): Happened => written(chat, time, `For Mrs Dale, if you say so:\nWexcombe\n${words}`);
  const amiss = (day: string, ...happened: Happened[]): string[] =>
    silenceAmiss(HETTIE, OWNER, [news, ...happened], [], day);

  it('holds where a word is shown on the tenth day as the shop opens, and none before', () => {
    expect(amiss('2026-03-18', shown('2026-03-18T08:00:00Z'))).toEqual([]);
    expect(amiss('2026-03-17')).toEqual([]);
    expect(amiss('2026-03-10', shown('2026-03-10T09:40:00Z', 'Your machine has been road-tested.'))).toEqual(
      [],
    );
  });

  it.each([
    ['none is shown', '2026-03-18', []],
    ['another has it alone', '2026-03-18', [shown('2026-03-18T08:00:00Z', undefined, 1002)]],
    ['it comes early', '2026-03-17', [shown('2026-03-17T08:00:00Z')]],
    ['it comes later in the day', '2026-03-18', [shown('2026-03-18T09:40:00Z')]],
    ['it comes once more', '2026-03-19', [shown('2026-03-18T08:00:00Z'), shown('2026-03-19T08:00:00Z')]],
    ['it comes twice', '2026-03-18', [shown('2026-03-18T08:00:00Z'), shown('2026-03-18T15:00:00Z')]],
  ])('does not where %s', (_what, day, happened) => {
    expect(amiss(day, ...happened)).not.toEqual([]);
  });
});
