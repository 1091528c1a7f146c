import { afterAll, beforeAll, expect, it } from 'vitest';
import { textOf } from '../../src/wording/answer.js';
import type { Floor } from './floor.js';
import { DAY, expectText, openFloor } from './floor.js';

let floor: Floor;

/**
 * Two things are late: an odd bracket that nothing waits for much, late the longest, and the wheels' rims, on which
 * lacing, tyres, brakes and the ride hang.
 */
beforeAll(async () => {
  floor = await openFloor();
  await floor.mechanic('new job: Larkspur 350 single, owner Mrs Quillfeather, already stripped');
  await floor.mechanic('supplier Brindlewick Plating, chrome, 01632 960123');
  await floor.mechanic('supplier Tarn Road Paint, paint, 01632 960124');
  await floor.mechanic('horn bracket rusty, send it for paint, 5 quid');
  await floor.mechanic('wheel rims rusty, send them for chrome, 40 quid');
  await floor.mechanic('sent the horn bracket to Tarn Road Paint, they say 4 March');
  await floor.mechanic('sent the wheel rims to Brindlewick, they say 6 March');
  floor.later(14 * DAY);
});
afterAll(() => floor.stop());

it('rings first where a day’s delay costs the hand-over most, whatever is late longest', async () => {
  const text = textOf(await floor.mechanic('what’s overdue?'));
  expect(text.indexOf('Brindlewick')).toBeGreaterThanOrEqual(0);
  expect(text.indexOf('Brindlewick')).toBeLessThan(text.indexOf('Tarn Road'));
  expect(text).toMatch(/wheel rims?.*day on the hand-over/);
});

it('has the morning’s list in the same order', async () => {
  await floor.desk.wake(floor.now());
  const [roundUp] = (await floor.deliver()).filter(({ text }) => text.startsWith('Overdue'));
  expectText({ text: [roundUp?.text ?? ''], buttons: [] }, /Brindlewick[\s\S]*Tarn Road/);
});
