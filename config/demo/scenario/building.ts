import type { Scene } from './scene.js';
import { on, photo, presses, says } from './scene.js';

const may15 = on('2026-05-15');
const may19 = on('2026-05-19');
const may21 = on('2026-05-21');
const may22 = on('2026-05-22');
const may28 = on('2026-05-28');
const june2 = on('2026-06-02');
const june4 = on('2026-06-04');
const june5 = on('2026-06-05');
const june9 = on('2026-06-09');
const june11 = on('2026-06-11');
const june12 = on('2026-06-12');
const june16 = on('2026-06-16');
const june19 = on('2026-06-19');
const june26 = on('2026-06-26');
const july1 = on('2026-07-01');

/** Built up, set up, ridden, put right, ridden again, and handed over. */
export const building: readonly Scene[] = [
  {
    heading: 'Built up',
    moments: [
      may15('14:10', 'joss', says("where's the dynamo?")),
      may15('17:30', 'joss', says('steps 11 to 17 done')),
      may19('17:15', 'hettie', says('steps 18 to 22 done')),
      may21('09:20', 'joss', says('rims done')),
      may22('16:40', 'joss', says('steps 23 to 29 done')),
      may28('17:05', 'hettie', photo('rolling chassis', 'looks like a motorcycle again')),
      may28('17:06', 'hettie', says('steps 30 to 40 done')),
      june2('10:40', 'hettie', says('carb done')),
      june2('16:50', 'joss', says('steps 41 to 49 done')),
      june4('17:20', 'hettie', says('steps 50 to 60 done')),
      june4('17:30', 'joss', says('show me the photos of 17')),
      june5('09:00', 'hettie', presses({ do: 'pass-gate', gate: 'reassembled' })),
    ],
  },
  {
    heading: 'Set up and ridden',
    moments: [
      june9('10:00', 'hettie', says('checks')),
      june9('12:10', 'hettie', says('checks 1 to 13 done')),
      june9('16:30', 'joss', says('points gap set')),
      june9('17:00', 'joss', says('checks 15 to 27 done')),
      june11('15:20', 'hettie', says('road test: pulls well, weeping oil at the rocker feed')),
      june12('10:45', 'joss', says('fault 1 fixed')),
      june12('15:30', 'hettie', says('road tested again, all good, dry as a bone')),
      june12('15:31', 'hettie', presses({ do: 'pass-gate', gate: 'road-tested' })),
      june16('12:10', 'averill', says('Wonderful news! Can I come on Friday the 26th?')),
      june19('11:00', 'hettie', says("what's it cost?")),
      june26('11:30', 'hettie', says('handed over')),
    ],
  },
  {
    heading: 'Afterwards',
    moments: [
      july1('09:40', 'plater', says('Is that headlamp rim holding up all right?')),
      july1('13:15', 'stranger', says('Hello, how much to restore my moped?')),
    ],
  },
];
