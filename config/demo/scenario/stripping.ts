import type { Scene } from './scene.js';
import { on, photo, presses, says } from './scene.js';

const monday = on('2026-03-02');
const tuesday = on('2026-03-03');
const wednesday = on('2026-03-04');
const friday = on('2026-03-06');
const nextMonday = on('2026-03-09');

/** The machine comes apart: bags, boxes, and what is seen on the way. */
export const stripping: readonly Scene[] = [
  {
    heading: 'Stripping',
    moments: [
      monday('13:20', 'hettie', says('tank off, top shelf. saddle off, box 1')),
      monday('14:05', 'hettie', says('carb off, bag 1, mag off, bag 2, dynamo off, box 2')),
      monday('15:30', 'joss', says('working on the Ketterby')),
      monday('15:32', 'joss', says('exhaust pipe off, rusty, wants chroming, about 70 quid')),
      tuesday(
        '09:15',
        'hettie',
        photo('fork stanchions', 'nearside fork tube pitted, new pair, about eighty quid'),
      ),
      tuesday('09:40', 'joss', says('gearbox sprocket hooked, new one, thirty quid')),
      tuesday('09:41', 'joss', presses({ do: 'undo' })),
      tuesday('09:42', 'joss', says('on the Ostrel: gearbox sprocket hooked, new one, thirty quid')),
      tuesday('11:10', 'hettie', says('front mud guard off dented and rusty send it for paint sixty quid')),
      tuesday('11:25', 'hettie', says('rear mud guard off rusty send it for paint sixty quid as well')),
      tuesday('14:25', 'hettie', says('primary chain case off dented repair it here')),
      wednesday('09:05', 'joss', {
        kind: 'album',
        of: ['cylinder head', 'exhaust valve guide'],
        caption: 'head off. exhaust valve guide worn, new one, 18 quid',
        on: 1,
      }),
      wednesday('10:30', 'hettie', { kind: 'voice', seconds: 3 }),
      wednesday('10:31', 'hettie', says('tank sound inside just surface rust send it for paint 180 quid')),
      wednesday(
        '11:50',
        'joss',
        says('handlebar and headlamp rim off, both rusty, send for chrome, 45 each'),
      ),
      wednesday('15:10', 'hettie', says('rear brake shoes glazed, new ones, £18 a pair', { as: 'shoes' })),
      wednesday('15:12', 'hettie', {
        kind: 'edits',
        message: 'shoes',
        text: 'rear brake shoes glazed, new ones, £28 a pair',
      }),
      friday('09:30', 'joss', says('both wheel rims rusty, send for chrome, 90 each')),
      friday('10:15', 'joss', says('front brake plate off, looks good, keep it')),
      friday(
        '11:40',
        'hettie',
        says('clutch plates burnt, new set, 38 quid. primary chain stretched, new one, 32 quid'),
      ),
      friday('15:55', 'hettie', says('frame bare and straight, wants blasting and enamel, 220')),
      friday('15:56', 'hettie', presses({ do: 'apply', reading: { items: [{ remedy: 'send-out' }] } })),
      nextMonday('10:05', 'hettie', says("that's it stripped")),
    ],
  },
];
