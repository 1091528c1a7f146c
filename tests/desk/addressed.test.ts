import { afterEach, beforeEach, expect, it } from 'vitest';
import type { Floor } from './floor.js';
import { expectText, furnish, openFloor } from './floor.js';

let floor: Floor;
beforeEach(async () => {
  floor = await openFloor();
  await furnish(floor);
});
afterEach(() => floor.stop());

it('does as told of a machine named first, whatever is on the bench', async () => {
  await floor.mechanic('new job: Otterbourne 500 single');
  expectText(
    await floor.mechanic('on the Larkspur: fault: front brake binds'),
    /Fault 1: “front brake binds”/,
  );
  expectText(await floor.mechanic('Larkspur: fault 1 fixed'), /Fault 1 put right/);
  expect((await floor.job('Otterbourne')).state.faults).toEqual([]);
  expect((await floor.job('Larkspur')).state.faults).toHaveLength(1);
  await floor.mechanic('on the Larkspur: timing cover dirty, clean it');
  await floor.mechanic('working on the Otterbourne');
  await floor.mechanic('timing cover dirty, clean it');
  await floor.mechanic('on the Larkspur: timing cover done');
  const isDone = async (title: string): Promise<boolean[]> =>
    Object.values((await floor.job(title)).state.items).map(({ workDone }) => workDone);
  expect(await isDone('Larkspur')).toEqual([true]);
  expect(await isDone('Otterbourne')).toEqual([false]);
});
