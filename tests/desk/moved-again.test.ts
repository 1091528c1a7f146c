import { afterAll, beforeAll, expect, it, vi } from 'vitest';
import { textOf } from '../../src/wording/answer.js';
import type { DeskBench } from '../support/desk.js';
import { openDeskBench, DESK_START, MECHANIC_CHAT } from '../support/desk.js';

let bench: DeskBench;
beforeAll(async () => {
  bench = await openDeskBench();
  await bench.say('new job: Thistle 500 single, already stripped');
  await bench.say('new job: Hawthorn 350 single, already stripped');
});
afterAll(() => bench.stop());

it('what was moved to another machine stays there where the update that moved it comes again', async () => {
  await bench.say('fork spring broken, new one');
  const who = await bench.desk.who(MECHANIC_CHAT);
  if (who.kind !== 'person') throw new Error('the mechanic was let in');
  const move = () =>
    bench.desk.bench({
      ...{ key: 'u900', person: who.person, chatId: MECHANIC_CHAT, messageId: 900 },
      ...{ text: 'no, that’s the Thistle', at: DESK_START, source: 'typed', attachments: [], replyTo: null },
      ...{ edited: false, album: null, forwarded: false },
    });
  const dies = vi.spyOn(bench.record.inbox, 'finish').mockRejectedValue(new Error('killed'));
  await expect(move()).rejects.toThrow('killed');
  dies.mockRestore();
  expect(textOf(await move())).toMatch(/^Thistle\n\d+ · fork spring: broken/);
  expect(textOf(await bench.say('on the Thistle: list'))).toMatch(/fork spring: broken/);
  expect(textOf(await bench.say('on the Hawthorn: list'))).not.toMatch(/fork spring/);
});
