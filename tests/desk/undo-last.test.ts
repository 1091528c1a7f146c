import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { textOf } from '../../src/wording/answer.js';
import type { DeskBench } from '../support/desk.js';
import { openDeskBench } from '../support/desk.js';

let bench: DeskBench;
beforeAll(async () => {
  bench = await openDeskBench();
  await bench.say('new job: Thistle 500 single, already stripped');
  await bench.say('carburettor dirty, clean it');
});
afterAll(() => bench.stop());

const list = async (): Promise<string> => textOf(await bench.say('list'));

describe('a bare undo', () => {
  it('takes back the work that was told as done last, not what was found before', async () => {
    await bench.say('carburettor done');
    await bench.say('undo');
    expect(await list()).toMatch(/carburettor: dirty; clean/);
    expect(textOf(await bench.say('carburettor done'))).toMatch(/cleaned/);
  });

  it('takes back a gate passed last', async () => {
    expect(textOf(await bench.say('inspected done'))).toMatch(/Passed: inspected/);
    expect(textOf(await bench.say('undo'))).toMatch(/^Undone/);
    expect(textOf(await bench.say('inspected done'))).toMatch(/Passed: inspected/);
  });
});
