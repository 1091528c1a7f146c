import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { JOB } from '../../src/desk/folds.js';
import type { JobState } from '../../src/job/state.js';
import { readState } from '../../src/record/index.js';
import type { LivingShop } from '../support/living-shop.js';
import { startLivingShop } from '../support/living-shop.js';

let shop: LivingShop;

beforeAll(async () => {
  shop = await startLivingShop(Date.parse('2026-03-02T09:00:00Z'));
  await shop.say(shop.mechanic, 'new job: Ketterby 500 single, owner Mrs Dale');
  await shop.say(shop.mechanic, 'clutch basket worn');
  await shop.say(shop.mechanic, 'clutch hub pitted');
});

afterAll(() => shop.stop());

async function job(): Promise<JobState> {
  const streams = await shop.record.streams();
  const stream = streams.find((each) => each.startsWith('job-'));
  if (stream === undefined) throw new Error('no job was opened');
  return (await readState(shop.record, stream, JOB)).state;
}

const conditionsOf = async (part: string): Promise<string[]> =>
  Object.values((await job()).items)
    .filter((item) => item?.part === part)
    .flatMap((item) => item?.findings.flatMap(({ conditions }) => conditions) ?? []);

const labels = (): string[] => (shop.mechanic.last()?.buttons ?? []).flat().map(({ text }) => text);

describe('what the reader is not sure of', () => {
  it('is asked where much hangs on it, with the likeliest answers as buttons, and recorded as pressed', async () => {
    const answer = await shop.say(shop.mechanic, 'clutch wazzock cracked');
    expect(answer).toMatch(/I took that to be the clutch: right\?/);
    expect(labels()).toEqual(expect.arrayContaining(['Clutch basket', 'Clutch centre']));
    expect(await conditionsOf('clutch')).toEqual(['cracked']);

    await shop.mechanic.press((button) => button.text === 'Clutch centre');
    await shop.driver.quiet();
    expect(await conditionsOf('clutch centre')).toEqual(['pitted', 'cracked']);
    expect(await conditionsOf('clutch')).toEqual([]);
    expect(await conditionsOf('clutch basket')).toEqual(['worn']);
  });

  it('is only said where little hangs on it', async () => {
    const answer = await shop.say(shop.mechanic, 'valve springs measure 1 7/8, a bit tired, replace them');
    expect(answer).toMatch(/I took it as: .+“Change” if not\./);
    expect(answer).not.toMatch(/\?/);
    expect(labels()).toEqual(['Undo', 'Change']);
  });

  it('is not spoken of where there is nothing of it', async () => {
    expect(await shop.say(shop.mechanic, 'nearside footrest bent, replace')).not.toMatch(/took|\?/);
  });
});
