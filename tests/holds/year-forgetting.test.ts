import { expect, it } from 'vitest';
import { newRun } from '../../config/year/job-run.js';
import { makeForgetting } from '../../config/year/forgetting.js';
import { tracesSent } from '../../config/year/invariants/forgotten.js';
import { newLedger } from '../../config/year/ledger.js';
import type { World } from '../../config/year/world.js';
import { message } from './seen.js';

type Chat = NonNullable<World['suppliers'][number]['chat']>;

/** A shop of one owner, whose machine has gone; its bot answers each thing said with its own words, and forgets whom it is told to. */
function shopOfOne() {
  let now = Date.parse('2026-03-04T09:40:00Z');
  const said: { chat: Chat; at: number; text: string }[] = [];
  const person = (name: string) =>
    ({ user: { first_name: name }, last: () => ({ text: 'Mrs Wexcombe is forgotten.' }) }) as unknown as Chat;
  const run = newRun(
    'Garwick',
    { name: 'Mrs Wexcombe', chat: person('Mrs Wexcombe'), isForgotten: false },
    '',
  );
  run.stage = 'gone';
  const world = {
    ...{ jobs: [run], suppliers: [], mechanics: [person('Hettie')], ledger: newLedger() },
    ...{ newName: () => 'Ashdale', dice: { pick: <T>([first]: T[]) => first } },
    telling: {
      say: (chat: Chat, text: string) => Promise.resolve(said.push({ chat, at: now, text })),
      press: () => Promise.resolve(true),
    },
    stage: { driver: { now: () => now, moveTo: (to: number) => Promise.resolve((now = to)) } },
  } as unknown as World;
  return { world, chat: run.owner.chat, said };
}

it('somebody forgotten writes once more, late enough that an answer which names them is seen', async () => {
  const { world, chat, said } = shopOfOne();
  const forgetting = makeForgetting(world, '2026-03-04');
  await forgetting('2026-03-04');
  await forgetting('2026-03-05');
  const last = said.at(-1);
  expect(last?.chat).toBe(chat);
  const answer = message(new Date(last?.at ?? 0).toISOString(), 'No news of Ashdale, Mrs Wexcombe');
  expect(tracesSent('Mrs Wexcombe', [answer], world.ledger.forgotten)).toHaveLength(2);
});
