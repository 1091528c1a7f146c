import { afterEach, beforeEach, expect, it } from 'vitest';
import type { Floor } from './floor.js';
import { MECHANIC_CHAT } from '../support/desk.js';
import { DAY, expectText, furnish, openFloor, OWNER_CHAT, wakeAndDeliver } from './floor.js';

// What people write is invented; that a yes is none where its price is refused is common practice, no source.

let floor: Floor;
beforeEach(async () => {
  floor = await openFloor();
  await furnish(floor);
  await floor.mechanic('petrol tank rusty, send it for paint, 130 quid');
  await floor.mechanic('magneto weak, send it for a rewind, 140 quid');
  await floor.mechanic('ask the owner');
  await wakeAndDeliver(floor, '2026-03-02T12:00:00Z');
});
afterEach(() => floor.stop());

const standing = async (): Promise<string[]> =>
  Object.values((await floor.job()).state.items).map(({ part, agreement }) => `${part} ${agreement.status}`);

it.each([
  ['Yes to all of it, but the petrol tank not at that price please', 'talk', 'yes'],
  ['Yes to the rest, but the petrol tank is too dear', 'talk', 'yes'],
  ['I am not happy with all of it, the petrol tank is too dear', 'talk', 'asked'],
  ['I can’t say yes to everything, the petrol tank is too dear', 'talk', 'asked'],
  ['Yes to the magneto, but not at 140 quid', 'asked', 'talk'],
  ['Yes to the magneto, but the tank is too dear', 'talk', 'yes'],
  ['Yes to everything except the magneto', 'yes', 'no'],
  ['no to the paint, yes to the rest', 'no', 'yes'],
  ['do the magneto but leave the tank', 'no', 'yes'],
  ['Yes to the magneto. Ask me again about the tank', 'talk', 'yes'],
  ['Yes please! When will it be ready?', 'yes', 'yes'],
  ['Is the petrol tank too dear?', 'asked', 'asked'],
  ['Yes, but not at that price', 'talk', 'talk'],
  ['Yes, if you can do it for less', 'talk', 'talk'],
  ['Not now, please ask me again next week', 'talk', 'talk'],
  ['Let’s talk about it first', 'talk', 'talk'],
  ['Yes to all of it, but not the magneto please', 'yes', 'no'],
  ['Yes to all of it, please go ahead', 'yes', 'yes'],
  ['No to all of it for now', 'no', 'no'],
  ['Yes please', 'yes', 'yes'],
  ['OK, that’s fine. Thank you!', 'yes', 'yes'],
  ['No thanks', 'no', 'no'],
  ['Yes I’ll come on Friday', 'asked', 'asked'],
  ['Please do not forget the saddle', 'asked', 'asked'],
])('of “%s” the tank is %s and the magneto %s', async (words, tank, magneto) => {
  await floor.write(OWNER_CHAT, words);
  expect(await standing()).toEqual([`petrol tank ${tank}`, `magneto ${magneto}`]);
});

it('a bare yes is to the question, not to news that came after it', async () => {
  await wakeAndDeliver(floor, '2026-03-16T08:00:00Z');
  const { id, state } = await floor.job();
  floor.later(14 * DAY);
  await floor.press(MECHANIC_CHAT, { do: 'release-notice', job: id, notice: state.notices[0]?.id ?? '' });
  const sent = await wakeAndDeliver(floor, '2026-03-16T10:00:00Z');
  expect(sent.filter(({ chatId }) => chatId === OWNER_CHAT)).toHaveLength(1);
  await floor.write(OWNER_CHAT, 'OK, lovely, thank you');
  expect(await standing()).toEqual(['petrol tank asked', 'magneto asked']);
});

it('asks again about what was to be talked about, at its new price, and of nothing else', async () => {
  await floor.write(OWNER_CHAT, 'Yes to all of it, but the petrol tank not at that price please');
  await floor.mechanic('petrol tank, 95 quid');
  expectText(await floor.mechanic('ask the owner'), /petrol tank/);
  const asked =
    (await wakeAndDeliver(floor, '2026-03-03T12:00:00Z')).find(({ chatId }) => chatId === OWNER_CHAT)?.text ??
    '';
  expect(asked).toMatch(/petrol tank.*£95/i);
  expect(asked).not.toMatch(/magneto/i);
  await floor.write(OWNER_CHAT, 'Yes please');
  expect(await standing()).toEqual(['petrol tank yes', 'magneto yes']);
});

it('takes a bare yes for what is asked, not for what was left to be talked about', async () => {
  await floor.write(OWNER_CHAT, 'Let’s talk about it first');
  await floor.write(OWNER_CHAT, 'Yes please');
  expect(await standing()).toEqual(['petrol tank talk', 'magneto talk']);
});

it('takes no yes for what was never asked, nor for its price', async () => {
  await floor.mechanic('seat torn, replace it, 180 quid');
  await floor.write(OWNER_CHAT, 'Yes to the seat');
  expect(await standing()).toEqual(['petrol tank asked', 'magneto asked', 'seat not-asked']);
});

it('asks again where something has become dearer than what was agreed to', async () => {
  await floor.write(OWNER_CHAT, 'Yes to all of it');
  await floor.mechanic('magneto, 190 quid');
  await floor.mechanic('ask the owner');
  expect(await standing()).toEqual(['petrol tank yes', 'magneto asked']);
});
