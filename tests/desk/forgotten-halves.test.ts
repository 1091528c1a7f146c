import { afterEach, beforeEach, expect, it } from 'vitest';
import { MECHANIC_CHAT } from '../support/desk.js';
import type { Floor } from './floor.js';
import { expectText, furnish, openFloor } from './floor.js';

// Invented people; numbers of a range kept for fiction (Ofcom, 01632 960000 to 960999).

let floor: Floor;
beforeEach(async () => {
  floor = await openFloor();
  await furnish(floor);
});
afterEach(() => floor.stop());

const words = async (): Promise<string> => {
  const { id } = await floor.job();
  return [...(await floor.record.texts(`job-${id}`)).values()].join('\n');
};

it('makes no supplier of an owner who is called by half their name', async () => {
  await floor.mechanic('Quillfeather rang, to be rung back');
  const names = (await floor.record.people.all()).map(({ name }) => name);
  expect(names.filter((name) => name.includes('Quillfeather'))).toEqual(['Mrs Quillfeather']);
});

it('forgets half a name and a number where a mechanic wrote them of the machine', async () => {
  await floor.mechanic('owner Mrs Quillfeather, 01632 960555');
  await floor.mechanic('on the Larkspur: Quillfeather rang, to be rung back on 01632-960555');
  expect(await words()).toMatch(/Quillfeather.*960555/);
  const person = (await floor.record.people.all()).find(({ name }) => name === 'Mrs Quillfeather')?.id ?? '';
  expectText(await floor.press(MECHANIC_CHAT, { do: 'forget', person }), /is forgotten/);
  expect(await words()).toMatch(/a former contact rang, to be rung back on a number no longer kept/);
  expect(await words()).not.toMatch(/Quillfeather|960555/);
});

const passing = async (): Promise<string> => {
  const redis = floor.redis.connect();
  const kept: string[] = [];
  for (const key of await redis.keys('*'))
    if (/:(?:inbox|button|chat-message|context)/.test(key))
      kept.push(
        ...((await redis.type(key)) === 'hash'
          ? Object.values(await redis.hgetall(key))
          : [(await redis.get(key)) ?? '']),
      );
  await redis.quit();
  return kept.join('\n');
};

it('forgets half a name written small and a number written another way in what is kept for a while', async () => {
  await floor.mechanic('owner Mrs Dale, 01632 960555');
  const { buttons, inbox } = floor.record;
  await buttons.put('half', { label: 'magneto weak\ndale rang' });
  await buttons.put('number', ['ring +44 1632 960 555']);
  await buttons.put('other', ['Dalesman, ring +44 1632 960 556']);
  await inbox.begin('said', { text: 'pitted, (01632) 960.555' });
  await inbox.poison('raw', { message: { text: 'DALE' } });
  expect(await passing()).toMatch(/dale rang/);
  const person = (await floor.record.people.all()).find(({ name }) => name === 'Mrs Dale')?.id ?? '';
  expectText(await floor.press(MECHANIC_CHAT, { do: 'forget', person }), /is forgotten/);
  expect(await passing()).not.toMatch(/\bdale\b|dale rang|555/i);
  expect(await passing()).toMatch(/Dalesman/);
  expect(await inbox.poisoned()).toEqual([]);
});
