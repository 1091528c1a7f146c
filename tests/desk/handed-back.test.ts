import { afterEach, beforeEach, expect, it } from 'vitest';
import type { Floor } from './floor.js';
import { expectText, furnish, openFloor, sendRim } from './floor.js';

// What people say is invented; that work not done is still to be done is common practice, no source.

let floor: Floor;
beforeEach(async () => {
  floor = await openFloor();
  await furnish(floor);
  await sendRim(floor);
});
afterEach(() => floor.stop());

const line = async (): Promise<string | undefined> =>
  Object.values((await floor.job()).state.lines).at(-1)?.status;

it.each([
  'front rim back from Brindlewick, not done',
  'front rim back from Brindlewick undone',
  'front rim back from Brindlewick untouched',
  'front rim back from Brindlewick, they won’t do it',
  'front rim back from Brindlewick unplated',
  'front rim back from Brindlewick, hasn’t been touched',
])('“%s”: the work is still to be done', async (words) => {
  await floor.mechanic(words);
  expect(await line()).toBe('refused');
});

it('takes what comes back done for done', async () => {
  await floor.mechanic('front rim back from Brindlewick, lovely job');
  expect(await line()).toBe('back');
});

it.each([
  'front rim back from Brindlewick, lovely. magneto back too, not done',
  'front rim back from Brindlewick, lovely. petrol tank still unpainted',
])('does not take what is said of another thing for it: “%s”', async (words) => {
  await floor.mechanic(words);
  const rim = Object.values((await floor.job()).state.lines)[0];
  expect(rim?.status).toBe('back');
});

it('is a part of two that went as one thing, until the other has come too', async () => {
  await floor.mechanic('took both wheels to Brindlewick for rebuilding, 3 weeks');
  const answer = await floor.mechanic('got the front wheel back from Brindlewick, rear to follow Monday');
  expectText(answer, /wheels: 1 of 2 back from Brindlewick Plating\. Promised for Mon 9 March/);
  expect(await line()).toBe('part');
  await floor.mechanic('rear wheel’s back from Brindlewick');
  expect(await line()).toBe('back');
});
