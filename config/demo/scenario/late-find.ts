import type { Scene } from './scene.js';
import { on, photo, presses, says } from './scene.js';

const may1 = on('2026-05-01');
const may2 = on('2026-05-02');
const may5 = on('2026-05-05');
const may6 = on('2026-05-06');
const may8 = on('2026-05-08');
const may11 = on('2026-05-11');
const may12 = on('2026-05-12');
const may14 = on('2026-05-14');

/** A crack that nobody saw before, and what follows from it. */
export const lateFind: readonly Scene[] = [
  {
    heading: 'A crack found late',
    moments: [
      may1('10:20', 'hettie', says('want it reassembled by 5 June')),
      may1(
        '15:45',
        'joss',
        photo('brake plate', 'front brake plate cracked by the anchor, new one, about 65'),
      ),
      may1('15:50', 'hettie', says('ask the owner')),
      may2('11:15', 'averill', presses({ do: 'owner-answer', outcome: 'yes' })),
      may5('08:50', 'hettie', says('ordered the front brake plate from Sallow, coming 15 May')),
      may5('08:51', 'hettie', presses({ do: 'pass-gate', gate: 'inspected' })),
      may5('08:52', 'hettie', presses({ do: 'pass-gate', gate: 'parts-ordered' })),
      may5('08:53', 'hettie', presses({ do: 'pass-gate', gate: 'sublet-out' })),
    ],
  },
  {
    heading: 'The first of it goes together',
    moments: [
      may6('09:00', 'hettie', says('build order')),
      may6(
        '09:04',
        'hettie',
        says('new step: feed the stop lamp wire through the rear mudguard, after 27, half an hour'),
      ),
      may6('12:30', 'joss', says('steps 1 and 2 done')),
      may8('11:00', 'joss', says('headlamp rim back from the plater, spot on this time')),
      may11('08:45', 'joss', says("what's blocking reassembly?")),
      may11('17:20', 'joss', says('steps 3 to 10 done')),
      may12('10:15', 'hettie', says('mag back from Orrin, fat spark')),
      may14('13:00', 'hettie', says('front brake plate has come')),
    ],
  },
];
