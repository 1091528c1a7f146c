import type { Scene } from './scene.js';
import { on, photo, presses, says } from './scene.js';

const march16 = on('2026-03-16');
const march17 = on('2026-03-17');
const march27 = on('2026-03-27');
const march30 = on('2026-03-30');
const march31 = on('2026-03-31');
const april1 = on('2026-04-01');
const april8 = on('2026-04-08');
const april14 = on('2026-04-14');
const april15 = on('2026-04-15');
const april20 = on('2026-04-20');
const april23 = on('2026-04-23');
const april24 = on('2026-04-24');
const april27 = on('2026-04-27');
const april29 = on('2026-04-29');
const april30 = on('2026-04-30');

/** Everything that can be away is away, and late; some of it comes back as it should. */
export const away: readonly Scene[] = [
  {
    heading: 'Sent out, ordered, promised',
    moments: [
      march16(
        '14:10',
        'joss',
        says('dropped the handlebar, headlamp rim and exhaust pipe at the plater, he says 10 April'),
      ),
      march16(
        '16:30',
        'hettie',
        says('tank, both mudguards and frame gone to Tansy, back by the 17th of April'),
      ),
      march17('09:05', 'hettie', says('posted the mag to Orrin, six weeks he reckons')),
      march17(
        '09:40',
        'hettie',
        says(
          'ordered from Sallow: fork stanchions, exhaust valve guide, brake shoes, clutch plates, primary chain, wheel bearings and silencer, due 27 March',
        ),
      ),
      march17('09:41', 'hettie', presses({ do: 'pass-gate', gate: 'parts-ordered' })),
      march17('09:41', 'hettie', presses({ do: 'drop-notice' })),
      march17('09:42', 'hettie', presses({ do: 'pass-gate', gate: 'sublet-out' })),
      march17('09:43', 'hettie', presses({ do: 'release-notice' })),
      march17(
        '11:20',
        'joss',
        says('on the Ostrel: barrels gone to Sallow for a rebore, back by the 2nd of April'),
      ),
      march17('17:10', 'averill', says('When will it be ready?')),
    ],
  },
  {
    heading: 'Back, and not back',
    moments: [
      march27(
        '10:30',
        'hettie',
        says('stanchions, valve guide, brake shoes, clutch plates, primary chain and wheel bearings are in'),
      ),
      march27('10:32', 'dealer', says('Silencer is on back order, will be Friday 10 April, sorry')),
      march30('08:40', 'hettie', says("what's blocking reassembly?")),
      march30('08:42', 'hettie', says('when will the Ketterby be ready?')),
      march30('08:43', 'hettie', says('what if the plater is two weeks late?')),
      march30('08:44', 'hettie', says('timeline')),
      march30('08:45', 'hettie', says('fortnight')),
      march30('08:46', 'hettie', says("what's next?")),
      march30('11:00', 'hettie', says('primary chaincase done')),
      march31('09:30', 'dealer', says('Barrel is done, in the post this afternoon')),
      april1('10:15', 'joss', says('on the Ostrel: barrels back from Sallow, lovely job')),
      april8('09:20', 'plater', says('All on course here')),
      april14('09:10', 'hettie', says('what has the plater got of ours?')),
      april14('09:20', 'joss', says("what's overdue?")),
      april14('12:05', 'plater', says('Nickel bath was down all last week. Friday 24 April now.')),
      april14('16:00', 'hettie', says('silencer turned up')),
      april15('10:00', 'painter', presses({ do: 'supplier-says', says: 'on-time' })),
      april20('09:00', 'hettie', says('shop rules')),
      april20('09:01', 'hettie', says('rule 10: yes')),
      april23(
        '15:40',
        'painter',
        says('Second coat of black on now. You can have it all on Thursday 30 April.'),
      ),
      april24(
        '11:10',
        'joss',
        photo('headlamp rim', 'headlamp rim back from the plater but it is peeling already, refused it'),
      ),
      april24('11:12', 'joss', says('handlebar and exhaust pipe back from the plater, lovely')),
      april27('09:10', 'joss', says('sent the headlamp rim back to the plater, he promises 8 May')),
      april29('09:30', 'hettie', says('rang Orrin, mag will be 12 May')),
      april30('14:20', 'hettie', says('frame, tank and both mudguards back from Tansy')),
    ],
  },
];
