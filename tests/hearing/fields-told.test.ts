import { expect, it } from 'vitest';
import { readMessage } from '../../src/hearing/read-message.js';
import type { ItemReading } from '../../src/hearing/reading.js';

// Invented sayings; how they are meant is common practice, no source.
const TODAY = '2026-03-02';

it.each<[string, Partial<ItemReading>[]]>([
  ['lever pivot fine, leave', [{ remedy: 'keep' }]],
  ['leave the kickstart spring be', [{ remedy: 'keep' }]],
  ['leave the pushrods as they are', [{ remedy: 'keep' }]],
  ['side panel rusty, blast un and paint un', [{ count: null, processes: ['blast', 'paint'] }]],
  ['stay cracked, chk later', [{ remedy: 'check' }]],
  ['fork springs tired', [{ conditions: ['weak'] }]],
  ['gauze packed with sludge', [{ conditions: ['dirty'] }]],
  ['took the rockers out, bag 4, they’re all fine', [{ stored: 'bag 4', conditions: ['good'] }]],
  ['screws in bag 21, no, 22', [{ stored: 'bag 22' }]],
  [
    'bulb blown and the lens cracked, new ones please',
    [
      { part: 'bulb', remedy: 'replace' },
      { part: 'lens', remedy: 'replace' },
    ],
  ],
  [
    'horn dented, tail lamp cracked. Send both to Arkle for chroming',
    [
      { remedy: 'send-out', supplier: 'Arkle', processes: ['chrome'] },
      { remedy: 'send-out', supplier: 'Arkle', processes: ['chrome'] },
    ],
  ],
  ['needs the wheel rebuilding', [{ part: 'wheel', processes: ['wheel-build'] }]],
  [
    'Mrs Dale says yes to the tank but she’ll have to ask her husband about the seat',
    [{ outcome: 'yes' }, { outcome: 'talk' }],
  ],
])('“%s”', (said, told) => {
  expect(readMessage(said, { today: TODAY }).items).toMatchObject(told);
});

it.each<[string, ItemReading['readings'][]]>([
  [
    'tappets set, 4 thou inlet, 6 exhaust',
    [
      [{ quantity: 'clearance', value: 4, unit: 'thou' }],
      [{ quantity: 'clearance', value: 6, unit: 'thou' }],
    ],
  ],
  ['mag timed, 12mm before top', [[{ quantity: 'length', value: 12, unit: 'mm' }]]],
  ['ignition set 9mm btdc', [[{ quantity: 'length', value: 9, unit: 'mm' }]]],
  ['rebore the barrel to plus forty', [[]]],
  ['end float 8', [[{ quantity: 'end-float', value: 8, unit: 'thou' }]]],
  ['compression’s 110 pounds', [[{ quantity: 'pressure', value: 110, unit: 'psi' }]]],
  ['crankpin’s 1.374, hang on, 1.3746 inch', [[{ quantity: 'diameter', value: 1.3746, unit: 'in' }]]],
])('what is measured in “%s”', (said, readings) => {
  expect(readMessage(said, { today: TODAY }).items.map((item) => item.readings)).toEqual(readings);
});

it('counts a day put right from today, not from the slip', () => {
  const [item] = readMessage('plater says the 12th, no, sorry, the 11th', { today: TODAY }).items;
  expect(item?.due).toBe('2026-03-11');
});
