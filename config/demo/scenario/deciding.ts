import type { Scene } from './scene.js';
import { on, presses, says } from './scene.js';

const monday = on('2026-03-09');
const tuesday = on('2026-03-10');
const thursday = on('2026-03-12');
const friday = on('2026-03-13');
const saturday = on('2026-03-14');
const nextMonday = on('2026-03-16');

/** What is left to look at, and what the owner says to it all. */
export const deciding: readonly Scene[] = [
  {
    heading: 'Looked at and decided',
    moments: [
      monday('10:06', 'hettie', presses({ do: 'release-notice' })),
      tuesday(
        '09:20',
        'hettie',
        says('mag weak, no spark when hot, send it for a rewind, 140', { as: 'mag' }),
      ),
      tuesday('09:35', 'hettie', says('dynamo fine, keep it. carb wants a good clean')),
      tuesday('10:05', 'hettie', says('make that 150 quid', { replyTo: 'mag' })),
      tuesday('10:50', 'joss', says('silencer missing, new one, 95')),
      thursday('11:15', 'joss', says('wheel bearings worn, new set, 24 quid')),
      thursday('14:30', 'hettie', says('bore 79.52 at the top, 79.55 at the bottom, good, keep it')),
      friday('08:50', 'hettie', says("what's left to inspect?")),
      friday('09:05', 'hettie', says('saddle good, keep it. cylinder head good, keep it')),
      friday('09:20', 'hettie', says('ask the owner')),
      saturday('10:25', 'averill', says('Yes to all of it, but not the chroming of the rims please')),
      nextMonday('08:40', 'hettie', says('rims: just clean them then')),
      nextMonday('08:55', 'hettie', presses({ do: 'pass-gate', gate: 'inspected' })),
      nextMonday('08:56', 'hettie', presses({ do: 'release-notice' })),
    ],
  },
];
