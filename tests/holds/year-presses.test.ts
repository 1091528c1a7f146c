import { describe, expect, it } from 'vitest';
import { makeForgetting } from '../../config/year/forgetting.js';
import { notTakenBack } from '../../config/year/invariants/put-right.js';
import { newRun } from '../../config/year/job-run.js';
import { newLedger } from '../../config/year/ledger.js';
import { slip } from '../../config/year/slips.js';
import { makeTelling } from '../../config/year/telling.js';
import type { World } from '../../config/year/world.js';
import { found, opened, the } from '../job/talk.js';
import { given, inMessage } from '../support/given.js';

type Chat = World['mechanics'][number];

/** A shop in whose chats a button is found or not, with what was said and pressed there. */
function shop(isFound: boolean) {
  const done: string[] = [];
  const chat = { chatId: 1001, user: { first_name: 'Hettie' }, last: () => undefined } as unknown as Chat;
  const run = newRun('Garwick', { name: 'Mrs Wexcombe', chat, isForgotten: false }, '');
  run.stage = 'gone';
  const world = {
    ...{ jobs: [run], suppliers: [], mechanics: [chat], ledger: newLedger(), notes: [] },
    ...{ newName: () => 'Ashdale', dice: { pick: <T>([first]: readonly T[]) => first } },
    telling: {
      say: (_chat: Chat, text: string) => Promise.resolve(done.push(text)),
      press: (_chat: Chat, pick: object) => {
        done.push(JSON.stringify(pick));
        return Promise.resolve(isFound);
      },
    },
    stage: { driver: { now: () => 0, moveTo: () => Promise.resolve() } },
  } as unknown as World;
  return { world, run, done };
}

describe('a slip that is taken back', () => {
  it('is counted where the button of its own message was pressed, and once of a machine', async () => {
    const { world, run, done } = shop(true);
    await slip(world, run);
    await slip(world, run);
    expect(done).toEqual([
      'on the Garwick: left gaiter torn, straighten it',
      JSON.stringify({ do: 'undo', message: 'mechanic-1-1' }),
    ]);
    expect(world.ledger.counts).toEqual({ 'slips undone': 1 });
    expect(world.ledger.breaches).toEqual([]);
  });

  it('is seen, and not counted, where there is no button', async () => {
    const { world, run } = shop(false);
    await slip(world, run);
    expect(world.ledger.counts).toEqual({});
    expect(world.ledger.breaches).toHaveLength(1);
  });

  it('is seen where it stands still, or was not undone', () => {
    const said = given(
      opened({ passed: ['stripped'] }),
      inMessage('m7'),
      found(the('fork gaiter', 'left')),
      inMessage('m8'),
      found(the('fork gaiter', 'right')),
    );
    const gone = said.when({ type: 'undo', message: 'm7' }, { type: 'settle' }).world;
    const what = { part: 'left gaiter', message: 'm7' };
    expect(notTakenBack(gone.state, gone.events, what)).toEqual([]);
    expect(notTakenBack(said.world.state, said.world.events, what)).toHaveLength(1);
    expect(notTakenBack(gone.state, said.world.events, what)).toHaveLength(1);
    expect(notTakenBack(said.world.state, gone.events, what)).toHaveLength(1);
    expect(notTakenBack(gone.state, gone.events, { ...what, part: 'right gaiter' })).toHaveLength(1);
  });
});

it('nobody counts as forgotten where there is no button for it', async () => {
  const { world } = shop(false);
  const forgetting = makeForgetting(world, '2026-03-04');
  await forgetting('2026-03-04');
  await forgetting('2026-03-05');
  expect(world.ledger.breaches).toHaveLength(1);
  expect(world.ledger.counts).toEqual({});
  expect(world.ledger.forgotten).toEqual([]);
});

it('a guest of whom nobody asks is an error', async () => {
  const mechanic = { messages: () => [], last: () => ({ text: 'Hello' }) } as unknown as Chat;
  const stage = { driver: {}, record: { buttons: {} } } as unknown as Parameters<typeof makeTelling>[0];
  await expect(makeTelling(stage).settleGuest(mechanic, 'secret', true)).rejects.toThrow('Hello');
});
