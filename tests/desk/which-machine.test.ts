import { afterEach, beforeEach, expect, it } from 'vitest';
import type { Floor } from './floor.js';
import { furnish, openFloor, SUPPLIER_CHAT } from './floor.js';

let floor: Floor;
beforeEach(async () => {
  floor = await openFloor();
  await furnish(floor);
  await floor.mechanic('new job: Otterbourne 500 single, already stripped');
  for (const machine of ['Larkspur', 'Otterbourne'])
    await floor.mechanic(
      `on the ${machine}: front rim rusty, sent it to Brindlewick for chrome, back by 13 March`,
    );
});
afterEach(() => floor.stop());

const answered = async (title: string): Promise<boolean[]> =>
  Object.values((await floor.job(title)).state.lines).map(({ answeredAt }) => answeredAt !== null);

it.each([
  ['Sorry, we can’t take the front rim of the Larkspur on', true, false],
  ['The Otterbourne will be 20 March', false, true],
  ['The front rim will be 20 March', true, true],
])(
  'of two like things a supplier’s “%s” is about the one whose machine is named',
  async (words, one, other) => {
    await floor.write(SUPPLIER_CHAT, words);
    expect(await answered('Larkspur')).toEqual([one]);
    expect(await answered('Otterbourne')).toEqual([other]);
  },
);
