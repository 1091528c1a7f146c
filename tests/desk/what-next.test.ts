import { afterAll, beforeAll, expect, it } from 'vitest';
import { textOf } from '../../src/wording/answer.js';
import type { Floor } from './floor.js';
import { DAY, expectText, openFloor } from './floor.js';

let floor: Floor;

beforeAll(async () => {
  floor = await openFloor();
  await floor.mechanic('new job: Larkspur 350 single, owner Mrs Quillfeather, already stripped');
  await floor.mechanic('supplier Brindlewick Plating, chrome, 01632 960123');
});
afterAll(() => floor.stop());

it('names today’s three to five things, each with why', async () => {
  await floor.mechanic('wheel rims rusty, send them for chrome, 40 quid');
  await floor.mechanic('sent the wheel rims to Brindlewick, they say 6 March');
  floor.later(10 * DAY);
  const answer = await floor.mechanic('what’s next?');
  const rows = textOf(answer)
    .split('\n')
    .filter((line) => line.startsWith('•'));
  expect(rows.length).toBeGreaterThanOrEqual(3);
  expect(rows.length).toBeLessThanOrEqual(5);
  expect(rows[0]).toMatch(/^• Ring Brindlewick Plating, 01632 960123 about wheel rim.*overdue; holds up/);
  for (const row of rows) expect(row).toMatch(/: .+\.$/);
  expect(answer.buttons.flat().map(({ action }) => action.do)).toContain('fit-step');
});

it('says what is to be ordered or sent before a day is lost on it', async () => {
  await floor.mechanic('magneto weak, send it for a rewind, 45 quid');
  expectText(await floor.mechanic('what’s next?'), /Send magneto .*, for rewinding/);
});

it('changes little from one asking to the next', async () => {
  const first = textOf(await floor.mechanic('what next?'));
  expect(textOf(await floor.mechanic('what next?'))).toBe(first);
});

it('takes no wait into a build order that would go round in a ring, and says which steps would', async () => {
  await floor.mechanic('step 3 after 2');
  expectText(await floor.mechanic('step 2 after 3'), /each other|ring|round/i);
  expectText(await floor.mechanic('when will the Larkspur be ready?'), /four chances in five/);
});

it('keeps a mechanic’s days off out of the bench plan', async () => {
  // Easter 2026 is 5 April, from memory: Good Friday and Easter Monday are bank holidays, and Tuesday the 7th is worked.
  expectText(
    await floor.mechanic('I’m on holiday 12 March to 2 April'),
    /is away .*12 March.*2 April.*planned around it/,
  );
  const bench = textOf(await floor.mechanic('what’s next?'))
    .split('\n')
    .filter((line) => /\(.*hour/.test(line));
  expect(bench.length).toBeGreaterThan(0);
  expect(bench.filter((line) => !line.includes('Tue 7 April'))).toEqual([]);
});
