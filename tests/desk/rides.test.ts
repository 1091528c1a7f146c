import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { textOf } from '../../src/wording/answer.js';
import type { DeskBench } from '../support/desk.js';
import { openDeskBench } from '../support/desk.js';

// How a ride is told of is common practice, no source.
describe('a ride that went wrong', () => {
  let bench: DeskBench;
  beforeAll(async () => {
    bench = await openDeskBench();
    await bench.say('new job: Thistle 500 single, already stripped and inspected');
  });
  afterAll(() => bench.stop());

  it('is a fault of its own, which lists nothing besides', async () => {
    expect(textOf(await bench.say('road test: weeping oil at the rocker feed'))).toMatch(/Fault 1: /);
    expect(textOf(await bench.say('list'))).not.toMatch(/rocker/);
  });

  it('is not passed by praise, but is where it is said to be', async () => {
    const praised = textOf(await bench.say('road test: pulls well, weeping oil at the rocker feed'));
    expect(praised).toMatch(/not right yet/);
    await bench.say('undo');
    expect(textOf(await bench.say('road test passed, chain a bit noisy'))).toMatch(/passed/);
    await bench.say('undo');
  });

  it('lists what is to be done about it', async () => {
    const said = textOf(await bench.say('road tested, front brake drum oval, wants skimming'));
    expect(said).toMatch(/Fault 2: /);
    expect(said).toMatch(/front brake drum: oval\./);
  });
});
