import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { BenchListener } from '../../src/desk/bench/read-ahead.js';
import { readAhead, readingOf } from '../../src/desk/bench/read-ahead.js';
import { textOf } from '../../src/wording/answer.js';
import { MECHANIC_CHAT } from '../support/desk.js';
import type { Floor } from './floor.js';
import { furnish, openFloor } from './floor.js';

const listener = (last: number): BenchListener => ({
  ...{ today: '2026-03-02', spoken: false },
  known: {
    ...{ suppliers: [], machines: [] },
    items: [
      { item: 1, part: 'magneto', place: [] },
      { item: 2, part: 'dynamo', place: [] },
    ],
    last: { part: last === 1 ? 'magneto' : 'dynamo', place: [], item: last },
  },
});

describe('a reading made ahead', () => {
  it('stands where it would come out the same', () => {
    const ahead = readAhead('it is cracked', listener(1));
    expect(ahead).not.toBeNull();
    expect(readingOf('it is cracked', listener(1), ahead)).toBe(ahead?.reading);
  });

  it('is made anew where anything that is known has changed, or the words are others', () => {
    const ahead = readAhead('it is cracked', listener(1));
    expect(readingOf('it is cracked', listener(2), ahead).items).toMatchObject([{ item: 2 }]);
    expect(readingOf('it is worn', listener(1), ahead).items).toMatchObject([{ conditions: ['worn'] }]);
  });

  it('is not made of an instruction', () => {
    expect(readAhead('undo', listener(1))).toBeNull();
  });
});

describe('a message read while the record is asked', () => {
  let floor: Floor;
  beforeEach(async () => {
    floor = await openFloor();
    await furnish(floor);
  });
  afterEach(() => floor.stop());

  /** As the bot does it: with the words at hand as the visit begins. */
  const visit = async (text: string): Promise<string> => {
    const message = await floor.incoming(MECHANIC_CHAT, text);
    const its = floor.desk.visit(MECHANIC_CHAT, message.key, text);
    const answer = await its.bench(message);
    await its.kept();
    return textOf(answer);
  };

  it('is taken as what it means now, though others have spoken since', async () => {
    await visit('magneto weak');
    // Another process: what this one remembers of the chat knows nothing of it.
    const elsewhere = floor.deskOver(() => ({ memory: {} }));
    await floor.hand(await floor.incoming(MECHANIC_CHAT, 'dynamo cracked'), elsewhere);
    expect(await visit('it is rusty too')).toMatch(/dynamo/);
    await floor.hand(await floor.incoming(MECHANIC_CHAT, 'supplier Tarnside, enamel'), elsewhere);
    expect(await visit('tank to Tarnside for paint')).toMatch(/Tarnside/);
  });
});
