import { describe, expect, test } from 'vitest';
import { readMessage } from '../../src/hearing/read-message.js';

/** British use as issue 4 and hearing.md give it; today is Monday 2026-03-02. */
const TODAY = '2026-03-02';

const first = (message: string, spoken = false) => readMessage(message, { today: TODAY, spoken }).items[0];

describe('days', () => {
  test.each([
    ['Friday week', '2026-03-13'],
    ['a week on Tuesday', '2026-03-10'],
    ['tomorrow week', '2026-03-10'],
    ['the end of next month', '2026-04-30'],
    ['the first week of May', '2026-05-08'],
    ['in a fortnight', '2026-03-16'],
    ['the 14th', '2026-03-14'],
    ['3/4', '2026-04-03'],
    ['in March', '2026-03-31'],
  ])('levers due back from the plater by %s', (said, due) => {
    const lead = said.startsWith('in ') ? '' : 'by ';
    expect(first(`plater says the levers will be ready ${lead}${said}`)?.due).toBe(due);
  });

  test('"next Friday" may be either: the later, and unsure', () => {
    expect(first('plater says next Friday for the levers')).toMatchObject({
      due: '2026-03-13',
      unsure: ['due'],
    });
  });
});

describe('money', () => {
  test.each([
    ['a fiver', 5, false, false],
    ['a tenner each', 10, false, true],
    ['a hundred and ten plus VAT', 110, false, false],
    ['twenty-odd quid', 20, true, false],
    ['forty to fifty quid', 50, true, false],
    ['two grand', 2000, false, false],
  ])('new chain, %s', (said, amount, about, each) => {
    expect(first(`new chain, ${said}`)?.cost).toMatchObject({ amount, about, each, currency: 'GBP' });
  });

  test('VAT on top, and VAT in it', () => {
    expect(first('new chain, 30 quid plus VAT')?.cost?.vat).toBe('plus');
    expect(first('new chain, 30 quid including VAT')?.cost?.vat).toBe('including');
  });
});

describe('measures', () => {
  test.each([
    ['ten and a half thou', 10.5, 'thou'],
    ['three eighths of an inch', 0.375, 'in'],
    ['twenty-five sixty-fourths of an inch', 0.390625, 'in'],
    ['point oh oh two inches', 0.002, 'in'],
    ['thirty four point nine two mil', 34.92, 'mm'],
    ['20 microns', 20, 'um'],
  ])('piston clearance %s', (said, value, unit) => {
    expect(first(`piston clearance ${said}`)?.readings).toEqual([{ quantity: 'clearance', value, unit }]);
  });

  test('a bag’s number, a price, a size and a day are told apart', () => {
    const item = first('dynamo off, bag 14, brushes 8 mm, 12 quid for new ones, by the 20th');
    expect(item).toMatchObject({ part: 'dynamo', stored: 'bag 14' });
  });
});

describe('what is denied, corrected, repeated', () => {
  test('"no cracks" adds nothing, "not worn" is good', () => {
    expect(first('no cracks in the frame')).toMatchObject({ part: 'frame', conditions: [] });
    expect(first('the frame is not worn')).toMatchObject({ part: 'frame', conditions: ['good'] });
  });

  test('the front, no, the rear', () => {
    expect(first('the front, no, the rear brake drum is scored')?.place).toEqual(['rear']);
  });

  test('same with the other side', () => {
    const listener = {
      today: TODAY,
      known: {
        suppliers: [],
        machines: [],
        items: [],
        last: { part: 'fork stanchion', place: ['left' as const] },
      },
    };
    const reading = readMessage("other side's pitted too", listener);
    expect(reading.items).toMatchObject([
      { part: 'fork stanchion', place: ['right'], conditions: ['pitted'] },
    ]);
  });

  test('a thing said once for several belongs to each', () => {
    const items = readMessage('sent the tank, side panels and mudguard to the painter, back by the 20th', {
      today: TODAY,
    }).items;
    expect(items.map((item) => item.part)).toEqual(['petrol tank', 'side panel', 'mudguard']);
    for (const item of items)
      expect(item).toMatchObject({ act: 'sent', supplier: 'the painter', due: '2026-03-20' });
  });
});

describe('the shop’s own words', () => {
  const known = {
    suppliers: [{ name: 'Osgood', also: ['Ozzy'] }],
    machines: [{ name: 'Ketterby' }],
    owners: [{ name: 'Colin' }],
    items: [],
    words: [{ said: 'twiddly bit', part: 'gearchange pawl' }],
  };

  test('a learnt nickname is the part it stands for', () => {
    const items = readMessage('the twiddly bit is worn', { today: TODAY, known }).items;
    expect(items).toMatchObject([{ part: 'gearchange pawl', conditions: ['worn'], unsure: [] }]);
  });

  test('a supplier by another name, a machine in small letters, an owner', () => {
    expect(readMessage('crank sent to Ozzy', { today: TODAY, known }).items[0]?.supplier).toBe('Ozzy');
    expect(
      readMessage('on the ketterby the chain is worn', { today: TODAY, known, spoken: true }).machine,
    ).toBe('Ketterby');
    expect(
      readMessage('colin agreed the rims', { today: TODAY, known, spoken: true }).items[0],
    ).toMatchObject({
      act: 'agreed',
      outcome: 'yes',
      part: 'wheel rim',
    });
  });
});

describe('who is to be rung back', () => {
  test.each([
    'Brambridge rang, to be rung back on 01632 960100',
    'rang Dov, he is to be rung back on Friday',
    'phone him back on 01632 960100',
    'call them back in a minute',
  ])('put nothing back on: “%s”', (message) => {
    expect(first(message)?.act).not.toBe('fitted');
  });

  test.each(['the handlebar is back on', 'Brambridge rang, handlebar back on', 'headlamp back in'])(
    'while a thing is: “%s”',
    (message) => {
      expect(first(message)?.act).toBe('fitted');
    },
  );
});
