import type { Scene } from './scene.js';
import { on, photo, presses, says } from './scene.js';

const monday = on('2026-03-02');

/** Two machines on the books, and everybody in the chat who wants to be. */
export const comingIn: readonly Scene[] = [
  {
    heading: 'The Ketterby comes in; the Ostrel is here already',
    moments: [
      monday('08:31', 'hettie', says('new job: Ostrel 650 unit twin, owner Mr Tobin, already stripped')),
      monday(
        '08:36',
        'hettie',
        says(
          'new job: Ketterby 500 single, owner Mrs Averill, frame 4417, engine 2206, turns over, came with two boxes of bits, no silencer',
        ),
      ),
      monday('08:38', 'hettie', photo('as she came in', 'as she came in')),
    ],
  },
  {
    heading: 'Who does what, and who is in the chat',
    moments: [
      monday('08:45', 'hettie', says('supplier Cobnut Plating, chrome and nickel, 01632 960114')),
      monday('08:45', 'hettie', presses({ do: 'invite' })),
      monday('08:52', 'plater', { kind: 'takes-invitation' }),
      monday('08:53', 'hettie', presses({ do: 'settle-guest', welcome: true })),
      monday('08:54', 'hettie', says('supplier Tansy Enamels, paint, 01632 960127')),
      monday('08:54', 'hettie', presses({ do: 'invite' })),
      monday('09:10', 'painter', { kind: 'takes-invitation' }),
      monday('09:11', 'hettie', presses({ do: 'settle-guest', welcome: true })),
      monday('09:12', 'hettie', says('supplier Sallow Spares, parts, 01632 960142')),
      monday('09:12', 'hettie', presses({ do: 'invite' })),
      monday('09:20', 'dealer', { kind: 'takes-invitation' }),
      monday('09:21', 'hettie', presses({ do: 'settle-guest', welcome: true })),
      monday('09:22', 'hettie', says('supplier Orrin Rewinds, magneto rewinds, 01632 960171')),
      monday('09:24', 'hettie', says('mechanic Joss Tarrow')),
      monday('09:24', 'hettie', presses({ do: 'invite' })),
      monday('09:26', 'joss', { kind: 'takes-invitation' }),
      monday('09:26', 'hettie', presses({ do: 'settle-guest', welcome: true })),
      monday('09:30', 'hettie', says('invite Mrs Averill')),
      monday('12:40', 'averill', { kind: 'takes-invitation' }),
      monday('12:44', 'hettie', presses({ do: 'settle-guest', welcome: true })),
    ],
  },
];
