import { describe, expect, test } from 'vitest';
import { readMessage } from '../../src/hearing/read-message.js';
import type { ItemReading } from '../../src/hearing/reading.js';

/** The worked readings of the contract, shared/hearing.md; today is Monday 2026-03-02. */
const TODAY = '2026-03-02';

type Told = Partial<ItemReading>;
const pounds = (amount: number, about = false) => ({
  amount,
  currency: 'GBP' as const,
  about,
  each: false,
  vat: null,
});

const worked: [message: string, items: Told[]][] = [
  [
    'rear brake shoes glazed, send them for relining, twenty-five quid a pair',
    [
      {
        act: 'finding',
        part: 'brake shoe',
        place: ['rear'],
        count: 2,
        conditions: ['glazed'],
        remedy: 'send-out',
        processes: ['reline'],
        cost: pounds(25),
      },
    ],
  ],
  [
    "nearside footrest bent, I'll straighten it",
    [
      {
        act: 'finding',
        part: 'footrest',
        place: ['left'],
        conditions: ['bent'],
        remedy: 'repair',
        processes: ['straighten'],
      },
    ],
  ],
  [
    'both valve guides worn, no cracks in the head',
    [
      { act: 'finding', part: 'valve guide', count: 2, conditions: ['worn'] },
      { act: 'finding', part: 'cylinder head', conditions: [] },
    ],
  ],
  ["speedo's been sent to the gauge man", [{ act: 'sent', part: 'speedometer', supplier: 'the gauge man' }]],
  ["took the dynamo off, it's in box 3", [{ act: 'stripped', part: 'dynamo', stored: 'box 3' }]],
  [
    'plater says Friday week for the levers',
    [{ act: 'promised', part: 'lever', supplier: 'plater', due: '2026-03-13' }],
  ],
  [
    'four of the six spokes came, other two to follow',
    [{ act: 'back', part: 'spoke', count: 4, outcome: 'part' }],
  ],
  [
    'wheel bearings are in, torqued the spindle nut to 60 foot pounds',
    [
      { act: 'fitted', part: 'wheel bearing' },
      { act: 'fitted', part: 'spindle nut', readings: [{ quantity: 'torque', value: 60, unit: 'lbf.ft' }] },
    ],
  ],
  [
    "bore's 70.5, no, 70.8, at the bottom",
    [{ act: 'finding', part: 'cylinder bore', readings: [{ quantity: 'bore', value: 70.8, unit: 'mm' }] }],
  ],
  [
    "Mrs Dale's happy with the blue but not with re-chroming the rims",
    [
      { act: 'agreed', part: null, outcome: 'yes' },
      { act: 'agreed', part: 'wheel rim', processes: ['chrome'], outcome: 'no' },
    ],
  ],
  [
    "gearbox sprocket hooked, new one, and while you're at it a chain, about forty all in",
    [
      { act: 'finding', part: 'gearbox sprocket', conditions: ['worn'], remedy: 'replace', cost: null },
      { act: 'finding', part: 'chain', remedy: 'replace', cost: pounds(40, true), unsure: ['cost'] },
    ],
  ],
];

describe('the worked readings of hearing.md', () => {
  test.each(worked)('%s', (message, items) => {
    const reading = readMessage(message, { today: TODAY });
    expect(reading.items).toHaveLength(items.length);
    items.forEach((item, index) => expect(reading.items[index]).toMatchObject(item));
    expect(reading.act).toBe(items[0]?.act);
  });

  test('a question about what blocks a gate', () => {
    const reading = readMessage("what's stopping us building up the Ketterby?", { today: TODAY });
    expect(reading).toMatchObject({
      act: 'question',
      machine: 'Ketterby',
      items: [],
      question: { about: 'blocking', gate: 'reassembled' },
    });
  });

  test('spoken: a compound in two words', () => {
    const reading = readMessage('primary chain case dented', { today: TODAY, spoken: true });
    expect(reading.items).toMatchObject([{ part: 'primary chaincase', conditions: ['dented'] }]);
  });

  test('spoken: a misheard part is put right, and shown', () => {
    const reading = readMessage('the station on the drive side is pitted', { today: TODAY, spoken: true });
    expect(reading.heard).toContain('stanchion');
    expect(reading.items).toMatchObject([
      { part: 'fork stanchion', place: ['drive-side'], conditions: ['pitted'] },
    ]);
  });

  test('talk of the weather is a note', () => {
    expect(readMessage("blimey it's cold in here", { today: TODAY })).toMatchObject({
      act: 'note',
      items: [],
    });
  });
});
